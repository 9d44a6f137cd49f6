using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Planning;
using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Cli.Commands;

/// <summary>Tells before the rig is built what it will see.</summary>
public static class PlanCommand
{
    private const string DocumentName = "plan";
    private const int DocumentVersion = 1;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var caseFile = new Argument<string?>("CASE")
        {
            Description = "The case file, or the folder with a case.toml in it; not needed where options say everything. Its footage need not exist yet.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var output = new Option<string?>("--output", "-o") { Description = "Write plan.html, plan.json and pictures into this folder.", HelpName = "FOLDER" };
        var force = new Option<bool>("--force") { Description = "Replace plan files that are in the folder." };
        var options = new PlanOptions();
        var command = new ExampleCommand("plan", "Tell before a rig is built what it will see: sensitivity, blur, smear, dots, best distances.")
        {
            Examples =
            [
                ("bosflow plan my-flight/case.toml", "the sheet: what will be seen, and what to change"),
                ("bosflow plan my-flight/case.toml --f-number 5.6 --window-px 48", "the same with another aperture and window; options win over the file"),
                ("bosflow plan my-flight/case.toml --output my-plan", "the sheet as a page with pictures"),
            ],
            Remarks = ["Every option with a unit stands for the key of that name in the case file (bosflow new writes a commented one)."],
        };
        command.Add(caseFile);
        command.Add(output);
        command.Add(force);
        options.AddTo(command);
        command.SetAction((parsed, cancellationToken) =>
        {
            var settings = new PlanSettings
            {
                CasePath = parsed.GetValue(caseFile) is { } path ? environment.Absolute(path) : null,
                Options = options.Read(parsed),
                OutputFolder = parsed.GetValue(output) is { } folder ? environment.Absolute(folder) : null,
                Force = parsed.GetValue(force),
            };
            return Task.Run(() => Run(settings, Talk.Of(parsed, environment), cancellationToken), CancellationToken.None);
        });
        return command;
    }

    private static int Run(PlanSettings settings, Talk talk, CancellationToken cancellationToken)
    {
        if (settings.OutputFolder is { } wanted)
            PlanFolder.Check(wanted, [], settings.Force);
        PlanCase plan = PlanCaseReader.Read(settings.CasePath, settings.Options);
        PlanResult result = Planner.Judge(plan.Request, cancellationToken);
        foreach (string line in PlanWords.Of(result))
            talk.Result(line);
        JsonObject content = PlanJson.Of(result);
        if (settings.OutputFolder is { } folder)
        {
            IReadOnlyList<string> files = PlanFolder.Write(folder, result, [], Talk.Headed(DocumentName, DocumentVersion, content), VersionLine.Text);
            talk.Say($"The page is {files[0]}.");
        }

        talk.Document(DocumentName, DocumentVersion, content);
        return ExitCode.Done;
    }
}
