using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Running;
using BosFlow.Cli.Scenes;
using BosFlow.Media;
using BosFlow.Results.Runs;
using BosFlow.Synthesis;
using BosFlow.Validation;

namespace BosFlow.Cli.Commands;

/// <summary>A complete case from nothing to the report: makes a scene, measures it, and says how far the result is from the truth.</summary>
public static class DemoCommand
{
    private const int DocumentVersion = 1;
    private const string DefaultFolder = "demo-heat-gun";

    // The video shows the same flow; a few of its frames tell how much its compression costs.
    private const int VideoFrames = 4;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var output = new Option<string>("--output", "-o") { Description = "Folder of the demo; made, and never overwritten.", HelpName = "FOLDER", DefaultValueFactory = _ => DefaultFolder };
        var command = new ExampleCommand("demo", "Make a synthetic scene, measure it, and compare the result with the truth; no question asked.")
        {
            Examples =
            [
                ("bosflow demo", $"makes {DefaultFolder} in this folder and prints where the report is"),
                ("bosflow demo --output /tmp/first-look", "the same in another folder"),
            ],
            Remarks =
            [
                "The scene is synthetic and its truth is known exactly: the warm jet of a heat gun",
                "in front of a printed board, filmed from a camera on a rattling test cart.",
            ],
        };
        command.Add(output);
        command.SetAction((parsed, cancellationToken) =>
        {
            string folder = environment.Absolute(parsed.GetRequiredValue(output));
            return Task.Run(() => Make(folder, Talk.Of(parsed, environment), environment, cancellationToken), cancellationToken);
        });
        return command;
    }

    private static int Make(string folder, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        SceneFolder.RequireFree(folder, WhatToDo(folder));
        SceneRecipe recipe = SceneRecipeReader.Parse(DemoScene.Recipe, SceneFolder.RecipeName);
        talk.Say("A synthetic scene with exact truth: the warm jet of a heat gun in front of a printed board, filmed from a camera on a rattling test cart.");
        talk.Say(FormattableString.Invariant($"Making {recipe.FrameCount} frames of {recipe.Width} x {recipe.Height} px, {recipe.FlowOffCount} of them without flow, as pictures and as a video ..."));
        var scene = new SyntheticScene(recipe, cancellationToken);
        WrittenVideo? video = SceneFolder.Write(folder, scene, DemoScene.Recipe, new VideoEncoding(), _ => { }, cancellationToken);
        talk.Say($"Video: {video!.Encoding}.");

        talk.Say("Measuring the pictures ...");
        FinishedRun pictures = Measure(folder, SceneFolder.CaseName, null, talk, environment, cancellationToken);
        talk.Say(FormattableString.Invariant($"Measuring {VideoFrames} frames of the video ..."));
        string range = FormattableString.Invariant($"{recipe.FlowOffCount}:{recipe.FlowOffCount + VideoFrames}");
        FinishedRun fromVideo = Measure(folder, SceneFolder.VideoCaseName, range, talk, environment, cancellationToken);

        TruthComparison comparison = TruthComparison.Of(scene, RunFolder.ReadSummary(pictures.Folder), cancellationToken);
        TruthComparison videoComparison = TruthComparison.Of(scene, RunFolder.ReadSummary(fromVideo.Folder), cancellationToken);
        Tell(talk, pictures, fromVideo, comparison, videoComparison);
        return Math.Max(pictures.Code, fromVideo.Code);
    }

    private static FinishedRun Measure(string folder, string caseName, string? frames, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        var settings = new RunSettings { CasePath = Path.Combine(folder, caseName), Frames = frames };
        return RunComposition.Execute(RunPreparation.Prepare(settings, cancellationToken), talk, environment, cancellationToken);
    }

    private static void Tell(Talk talk, FinishedRun pictures, FinishedRun video, TruthComparison comparison, TruthComparison videoComparison)
    {
        string pictureName = FormattableString.Invariant($"pictures, {pictures.Outcome.FramesMeasured} frames");
        string videoName = FormattableString.Invariant($"video, {video.Outcome.FramesMeasured} frames");
        foreach (string line in ComparisonTable.Of([(pictureName, comparison), (videoName, videoComparison)]).Lines())
            talk.Result(line);
        talk.Result(string.Empty);
        talk.Result("The sigma of the mean covers the noise of frames and reference and the engine's bias, not the averaging over the window.");
        talk.Result("The scene is synthetic; density gradients are integrated along the line of sight, density and temperature are those of the section through the jet's axis.");
        talk.Result($"Report: {pictures.ReportPath}");
        talk.Say($"Case file to look at and to change: {pictures.Prepared.Case.File}");
        talk.Document("demo", DocumentVersion, new JsonObject
        {
            ["synthetic"] = true,
            ["report"] = pictures.ReportPath,
            ["case_file"] = pictures.Prepared.Case.File,
            ["frames_measured"] = pictures.Outcome.FramesMeasured,
            ["noise_floor_u_px"] = Finite(pictures.Outcome.NoiseFloorU),
            ["noise_floor_v_px"] = Finite(pictures.Outcome.NoiseFloorV),
            ["against_truth"] = ComparisonTable.ToJson(comparison),
            ["against_truth_video"] = ComparisonTable.ToJson(videoComparison),
        });
    }

    private static JsonValue? Finite(double value) => double.IsFinite(value) ? JsonValue.Create(value) : null;

    private static string WhatToDo(string folder)
    {
        string report = Path.Combine(folder, "run", "report.html");
        return File.Exists(report)
            ? $"the demo was made before, its report is {report}; delete the folder to make it again, or give another with --output."
            : "give another folder with --output.";
    }
}
