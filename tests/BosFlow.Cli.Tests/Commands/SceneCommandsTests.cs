using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

/// <summary>The commands synth, validate and demo as a user meets them.</summary>
public sealed class SceneCommandsTests
{
    private const string Recipe =
        """
        [scene]
        width_px = 96
        height_px = 64
        frames = 3
        flow_off_frames = 1

        [dots]
        margin_px = 12

        [flow]
        kind = "shift"
        u_px = 0.5
        v_px = 0.25
        """;

    [Fact]
    public async Task Synth_Recipe_MakesAFolderThatRuns()
    {
        using var folder = new TemporaryFolder();
        folder.Write("recipe.toml", Recipe);

        ProcessResult made = await CliRun.InsideAsync(folder.Root, "synth", "recipe.toml", "--output", "scène");

        Assert.Equal(ExitCode.Done, made.ExitCode);
        Assert.Equal(["case.toml", "frames", "recipe.toml", "truth.nc"], Names(folder.PathOf("scène")));
        ProcessResult run = await CliRun.InsideAsync(folder.Root, "run", "scène/case.toml", "--dry-run");
        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Contains("2 frames, 1 to 2", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Synth_LensAndDrift_WritesALensAndACaseThatNamesItAndTheLaterFrames()
    {
        using var folder = new TemporaryFolder();
        string recipe = Recipe.Replace("frames = 3\nflow_off_frames = 1", "frames = 6\nflow_off_frames = 2\nflow_off_frames_after = 2", StringComparison.Ordinal);
        folder.Write("recipe.toml", recipe + "\n[lens]\nfocal_length_x_px = 90\nradial_1 = -0.05\n[drift]\nbend_px = 0.5\n");

        ProcessResult made = await CliRun.InsideAsync(folder.Root, "synth", "recipe.toml", "--output", "scene");

        Assert.Equal(ExitCode.Done, made.ExitCode);
        Assert.Equal(["case.toml", "frames", "lens.toml", "recipe.toml", "truth.nc"], Names(folder.PathOf("scene")));
        string text = await File.ReadAllTextAsync(folder.PathOf("scene/case.toml"));
        Assert.Contains("lens = \"lens.toml\"", text, StringComparison.Ordinal);
        // A uniform shift fills the picture, so that nothing tells it from drift.
        Assert.DoesNotContain("use_later", text, StringComparison.Ordinal);
        ProcessResult run = await CliRun.InsideAsync(folder.Root, "run", "scene/case.toml", "--dry-run");
        Assert.Equal(ExitCode.Done, run.ExitCode);
    }

    [Theory]
    [InlineData("synth")]
    [InlineData("demo")]
    public async Task SynthAndDemo_FolderWithSomethingInIt_WritesNothingAndSaysSo(string command)
    {
        using var folder = new TemporaryFolder();
        folder.Write("recipe.toml", Recipe);
        folder.Write("mine/notes.txt", "mine");
        string[] args = command == "synth" ? ["synth", "recipe.toml", "--output", "mine"] : ["demo", "--output", "mine"];

        ProcessResult refused = await CliRun.InsideAsync(folder.Root, args);

        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains("exists already and is not empty", refused.Error, StringComparison.Ordinal);
        Assert.Equal(["notes.txt"], Names(folder.PathOf("mine")));
    }

    [Fact]
    public async Task Demo_MadeBefore_NamesItsReport()
    {
        using var folder = new TemporaryFolder();
        string report = folder.Write("demo-heat-gun/run/report.html", "a report");
        ProcessResult refused = await CliRun.InsideAsync(folder.Root, "demo");
        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains(report, refused.Error, StringComparison.Ordinal);
        Assert.Contains("delete the folder", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Synth_BadRecipe_LeavesNothing()
    {
        using var folder = new TemporaryFolder();
        folder.Write("recipe.toml", Recipe.Replace("margin_px = 12", "margin_px = 1", StringComparison.Ordinal));
        ProcessResult refused = await CliRun.InsideAsync(folder.Root, "synth", "recipe.toml", "--output", "scene");
        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains("margin of 1 px", refused.Error, StringComparison.Ordinal);
        Assert.Equal(["recipe.toml"], Names(folder.Root));
    }

    [Fact]
    public async Task Synth_FolderWithTheEndingPart_IsLeftAlone()
    {
        using var folder = new TemporaryFolder();
        folder.Write("recipe.toml", Recipe);
        string own = folder.Write("scene.part/notes.txt", "of the user");

        ProcessResult made = await CliRun.InsideAsync(folder.Root, "synth", "recipe.toml", "--output", "scene");

        Assert.Equal(ExitCode.Done, made.ExitCode);
        Assert.Equal("of the user", await File.ReadAllTextAsync(own));
        Assert.Equal(["recipe.toml", "scene", "scene.part"], Names(folder.Root));
    }

    [Fact]
    public async Task Synth_Interrupted_LeavesNothing()
    {
        using var folder = new TemporaryFolder();
        folder.Write("recipe.toml", Recipe);
        using var stopped = new CancellationTokenSource();
        await stopped.CancelAsync();
        ProcessResult result = await CliRun.InsideAsync(folder.Root, stopped.Token, "synth", "recipe.toml", "--output", "scene");
        Assert.Equal(ExitCode.Interrupted, result.ExitCode);
        Assert.Equal(["recipe.toml"], Names(folder.Root));
    }

    [Fact]
    public async Task Validate_OutputIsAFile_IsRefusedBeforeAnyWork()
    {
        using var folder = new TemporaryFolder();
        folder.Write("taken", "x");
        ProcessResult refused = await CliRun.InsideAsync(folder.Root, "validate", "--quick", "--output", "taken");
        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
    }

    private static string[] Names(string folder) =>
        [.. Directory.EnumerateFileSystemEntries(folder).Select(entry => Path.GetFileName(entry)).Order(StringComparer.Ordinal)];
}
