using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Scenes;
using BosFlow.Media;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Commands;

/// <summary>Makes synthetic frames with exact truth from a scene recipe.</summary>
public static class SynthCommand
{
    private const int DocumentVersion = 1;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var recipe = new Argument<string>("RECIPE") { Description = "The scene recipe, a TOML file; synthetic-frames/ has examples." };
        var output = new Option<string>("--output", "-o") { Description = "Folder of the scene; made, and never overwritten.", HelpName = "FOLDER", Required = true };
        var video = new Option<bool>("--video") { Description = "Write the frames as a video too, with a case file for it; the recipe's section [video] does so too and says how it is compressed." };
        var command = new ExampleCommand("synth", "Make synthetic frames with exact truth from a scene recipe.")
        {
            Examples =
            [
                ("bosflow synth synthetic-frames/hot-plume/recipe.toml --output my-scene", "frames/, truth.nc, recipe.toml and a case.toml that is ready to run"),
                ("bosflow synth my-recipe.toml --output my-scene --video", "the same, and video.mp4 with case-video.toml"),
                ("bosflow run my-scene/case.toml", "measures the scene; compare with truth.nc"),
            ],
            Remarks = ["The same recipe gives the same frames, bit for bit: every random draw comes from the seeds in it."],
        };
        command.Add(recipe);
        command.Add(output);
        command.Add(video);
        command.SetAction((parsed, cancellationToken) =>
        {
            string file = environment.Absolute(parsed.GetRequiredValue(recipe));
            string folder = environment.Absolute(parsed.GetRequiredValue(output));
            return Task.Run(() => Make(file, folder, parsed.GetValue(video), Talk.Of(parsed, environment), cancellationToken), cancellationToken);
        });
        return command;
    }

    private static int Make(string file, string folder, bool withVideo, Talk talk, CancellationToken cancellationToken)
    {
        (SceneRecipe recipe, VideoEncoding? encoding) = SceneRecipeReader.Read(file);
        encoding ??= withVideo ? new VideoEncoding { PausesBefore = VideoKeys.PausesOf(recipe.Order) } : null;
        if (encoding is { IsStandard: false })
            encoding.RequireTools(cancellationToken);
        SceneFolder.RequireFree(folder, "give another folder with --output.");
        var scene = new SyntheticScene(recipe, cancellationToken);
        WrittenVideo? video = SceneFolder.Write(folder, scene, File.ReadAllText(file), encoding, _ => { }, cancellationToken);
        talk.Result(folder);
        talk.Say(FormattableString.Invariant($"{recipe.FrameCount} frames of {recipe.Width} x {recipe.Height} px, {recipe.FlowOffCount} of them without flow; the exact truth is in {TruthFile.Name}."));
        if (video is not null)
            talk.Say($"Video: {video.Encoding}.");
        talk.Say($"Measure it with: bosflow run \"{Path.Combine(folder, SceneFolder.CaseName)}\"");
        talk.Document("synth", DocumentVersion, new JsonObject
        {
            ["folder"] = folder,
            ["case_file"] = Path.Combine(folder, SceneFolder.CaseName),
            ["truth"] = Path.Combine(folder, TruthFile.Name),
            ["frames"] = recipe.FrameCount,
            ["video"] = video is null ? null : Path.Combine(folder, Path.GetFileName(video.Path)),
        });
        return ExitCode.Done;
    }
}
