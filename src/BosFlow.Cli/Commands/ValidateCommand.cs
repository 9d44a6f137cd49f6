using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Scenes;
using BosFlow.Displacement;
using BosFlow.Validation;

namespace BosFlow.Cli.Commands;

/// <summary>Measures bias, noise, resolution and honesty of the program on synthetic scenes.</summary>
public static class ValidateCommand
{
    private const int DocumentVersion = 1;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var quick = new Option<bool>("--quick") { Description = "Coarser steps and fewer frames: about a minute." };
        var output = new Option<string?>("--output", "-o") { Description = $"Folder for {ValidationReport.PageName} and the CSV files; without it the figures are printed only.", HelpName = "FOLDER" };
        var command = new ExampleCommand("validate", "Measure bias, noise, resolution and honesty of this program on synthetic scenes.")
        {
            Examples =
            [
                ("bosflow validate --quick", "the figures in about a minute; exit code 3 when a required one is missed"),
                ("bosflow validate --output docs/validation", "all steps, written as Markdown and CSV"),
                ("bosflow validate --quick --json --quiet > figures.json", "for scripts"),
            ],
        };
        command.Add(quick);
        command.Add(output);
        command.SetAction((parsed, cancellationToken) =>
        {
            string? folder = parsed.GetValue(output) is { } typed ? environment.Absolute(typed) : null;
            return Task.Run(() => Run(parsed.GetValue(quick), folder, Talk.Of(parsed, environment), cancellationToken), cancellationToken);
        });
        return command;
    }

    // Compression is the only study that needs a program beside this one.
    private static SceneCompression? Compression(bool quick, CompressedScenes scenes, Talk talk, CancellationToken cancellationToken)
    {
        if (quick)
            return null;
        if (CompressedScenes.ArePossible(cancellationToken))
            return new SceneCompression(CompressedScenes.Codec, CompressedScenes.MegabitsPerSecond, (scene, rate) => scenes.Film(scene, rate, cancellationToken));
        talk.Warn("What compression does is not measured, since there is no ffmpeg with H.264 on this machine; install the package ffmpeg.");
        return null;
    }

    private static int Run(bool quick, string? folder, Talk talk, CancellationToken cancellationToken)
    {
        if (folder is not null && File.Exists(folder))
            throw new InputDataException($"{folder} is a file; give a folder with --output.");
        var results = new List<StudyResult>();
        using var scenes = new CompressedScenes();
        foreach (StudyResult result in ValidationPlan.Run(quick, new DisplacementSettings(), Compression(quick, scenes, talk, cancellationToken), cancellationToken))
        {
            results.Add(result);
            talk.Result(result.Title);
            talk.Result(result.Description);
            foreach (string line in ValidationReport.Figures(result).Lines())
                talk.Result("  " + line);
            talk.Result(string.Empty);
        }

        Figure[] missed = [.. results.SelectMany(result => result.Figures).Where(figure => !figure.Passes)];
        if (folder is not null)
            ValidationReport.Write(folder, results, $"Made by `bosflow validate{(quick ? " --quick" : string.Empty)} --output FOLDER`, {VersionLine.Text}.");
        talk.Result(missed.Length == 0
            ? "All required figures are met."
            : $"{missed.Length} required figures are missed: {string.Join("; ", missed.Select(figure => $"{figure.Study}, {figure.Name}"))}.");
        if (folder is not null)
            talk.Say($"Written to {Path.Combine(folder, ValidationReport.PageName)} and CSV files beside it.");
        talk.Document("validate", DocumentVersion, new JsonObject { ["quick"] = quick, ["all_met"] = missed.Length == 0, ["figures"] = ValidationReport.ToJson(results) });
        return missed.Length == 0 ? ExitCode.Done : ExitCode.DoneWithLosses;
    }
}
