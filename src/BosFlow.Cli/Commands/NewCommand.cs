using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Results.Files;

namespace BosFlow.Cli.Commands;

/// <summary>Makes the folder of a new case with a commented case file.</summary>
public static class NewCommand
{
    private const int DocumentVersion = 1;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var folder = new Argument<string>("FOLDER") { Description = "Folder of the case; made where it does not exist." };
        var command = new ExampleCommand("new", "Make a case folder with a commented case file.")
        {
            Examples =
            [
                ("bosflow new my-flight", "writes my-flight/case.toml; an existing one is never overwritten"),
                ("bosflow new \"heat gun, 3 March\"", "a folder with spaces in its name"),
            ],
        };
        command.Add(folder);
        command.SetAction(parsed => Make(parsed.GetRequiredValue(folder), Talk.Of(parsed, environment), environment));
        return command;
    }

    private static int Make(string typed, Talk talk, CommandEnvironment environment)
    {
        if (string.IsNullOrWhiteSpace(typed))
            throw new InputDataException("The name of the folder is empty; give one, such as: bosflow new my-flight");
        string folder = environment.Absolute(typed);
        string file = Path.Combine(folder, CaseTemplate.FileName);
        if (File.Exists(folder))
            throw new InputDataException($"{typed} is a file; give the name of a folder.");
        if (File.Exists(file))
            throw new InputDataException($"{file} exists already and is not overwritten; give another folder.");
        Write(folder, file);

        talk.Result(file);
        talk.Say(
            $"""
            What next:
              1. Put your frames into {Path.Combine(typed, "frames")} and a picture without flow beside the case file as reference.png
                 (or name a video and flow-off frames in the case file).
              2. Write your distances and your camera under [rig] in the case file.
              3. bosflow run {Quoted(Path.Combine(typed, CaseTemplate.FileName))} --dry-run   checks everything and writes nothing.
              4. bosflow run {Quoted(Path.Combine(typed, CaseTemplate.FileName))}             measures and writes the report.
            """);
        talk.Document("new", DocumentVersion, new JsonObject { ["case_file"] = file });
        return ExitCode.Done;
    }

    private static void Write(string folder, string file)
    {
        try
        {
            Directory.CreateDirectory(folder);
            if (!AtomicFile.CreateText(file, CaseTemplate.Write()))
                throw new InputDataException($"{file} exists already and is not overwritten; give another folder.");
        }
        catch (UnauthorizedAccessException exception)
        {
            throw new InputDataException($"{folder} may not be written by this user; choose another folder.", exception);
        }
    }

    private static string Quoted(string path) => path.Contains(' ', StringComparison.Ordinal) ? $"\"{path}\"" : path;
}
