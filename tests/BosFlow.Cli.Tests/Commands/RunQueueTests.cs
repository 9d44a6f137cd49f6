using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RunQueueTests
{
    [Fact]
    public async Task Run_OneWrongCaseOfThree_DoesTheOthersAndReturnsFailed()
    {
        using var small = new SmallCase(frames: 2);
        Case(small, "night/a.toml", "../out/a");
        small.Write("night/b.toml", "[footage]\nframes = \"nothing/*.png\"\n");
        Case(small, "night/c.toml", "../out/c");
        small.Write("night/recipe.toml", "[scene]\nwidth_px = 5\n");

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "night");

        Assert.Equal(ExitCode.Failed, result.ExitCode);
        Assert.Contains("recipe.toml has no [footage] and is passed over.", result.Error, StringComparison.Ordinal);
        Assert.Contains("error: b: ", result.Error, StringComparison.Ordinal);
        Assert.Contains("2 of 3 cases are in order", result.Error, StringComparison.Ordinal);
        Assert.Contains("2 of 3 cases done in", result.Output, StringComparison.Ordinal);
        Assert.Matches("a +done +2 of 2 +0 ", result.Output);
        Assert.Matches("b +refused +- +- ", result.Output);
        Assert.True(File.Exists(small.PathOf("out/a/summary.nc")));
        Assert.True(File.Exists(small.PathOf("out/c/summary.nc")));
    }

    [Fact]
    public async Task Run_ACaseThatFailsWhileWorking_DoesNotStopTheNext()
    {
        using var small = new SmallCase(frames: 1);
        small.WriteFlat("flat/f0.png", SmallCase.Width, SmallCase.Height, 128);
        small.Write("a.toml", SmallCase.Text.Replace("frames/*.png", "flat/*.png", StringComparison.Ordinal) + "[output]\nfolder = \"out/a\"\n");
        Case(small, "b.toml", "out/b");

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "a.toml", "b.toml", "--json");

        Assert.Equal(ExitCode.Failed, result.ExitCode);
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal("run-queue", (string)document["document"]!);
        JsonArray cases = document["cases"]!.AsArray();
        Assert.Equal(["failed", "done"], cases.Select(one => (string)one!["state"]!));
        Assert.Contains("None of the 1 frames could be measured", (string)cases[0]!["problems"]![0]!, StringComparison.Ordinal);
        Assert.Equal(1, (int)cases[1]!["run"]!["frames_measured"]!);
    }

    [Fact]
    public async Task Run_TwoCasesWithOneOutputFolder_RefusesBothBeforeWork()
    {
        using var small = new SmallCase(frames: 1);
        Case(small, "a.toml", "out");
        Case(small, "b.toml", "out");

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "a.toml", "b.toml");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("give each case an [output] folder of its own", result.Error, StringComparison.Ordinal);
        Assert.Contains("No case of the queue can be begun; mend what is said of each.", result.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.PathOf("out")));
    }

    [Fact]
    public async Task Run_OutputOfAQueue_HoldsAFolderForEachCase()
    {
        using var small = new SmallCase(frames: 1);
        Case(small, "a.toml", "out");
        Case(small, "b.toml", "out");

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "a.toml", "b.toml", "a.toml", "--output", "night");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("2 of 2 cases done", result.Output, StringComparison.Ordinal);
        Assert.Equal(File.ReadAllBytes(small.PathOf("night/a/summary.nc")).Length, File.ReadAllBytes(small.PathOf("night/b/summary.nc")).Length);
        Assert.False(Directory.Exists(small.PathOf("out")));
    }

    [Fact]
    public async Task Run_FolderWithoutCases_SaysWhatIsMissing()
    {
        using var small = new SmallCase(frames: 1);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "frames");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("There is no case in the folder", result.Error, StringComparison.Ordinal);
        Assert.Contains("bosflow new FOLDER", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_FolderOfFolders_TakesEachCaseInOrder()
    {
        using var small = new SmallCase(frames: 1);
        foreach (string name in new[] { "second", "first" })
        {
            Case(small, $"cases/{name}/case.toml", "run");
            foreach (string file in new[] { "reference.png", SmallCase.FrameName(0) })
            {
                Directory.CreateDirectory(Path.GetDirectoryName(small.PathOf($"cases/{name}/{file}"))!);
                File.Copy(small.PathOf(file), small.PathOf($"cases/{name}/{file}"));
            }
        }

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "cases");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("Case 1 of 2: first", result.Output, StringComparison.Ordinal);
        Assert.Contains("Case 2 of 2: second", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_Interrupted_StopsTheQueueAndSaysHowToGoOn()
    {
        using var small = new SmallCase(frames: 1);
        Case(small, "a.toml", "out a");
        Case(small, "b.toml", "out b");
        using var stop = new CancellationTokenSource();
        await stop.CancelAsync();

        ProcessResult result = await CliRun.InsideAsync(small.Folder, stop.Token, "run", "a.toml", "b.toml", "--output", "the night", "--restart");

        Assert.Equal(ExitCode.Interrupted, result.ExitCode);
        Assert.Contains("Give the same command without --restart: it does what is left.", result.Error, StringComparison.Ordinal);
        Assert.Contains("To go on: bosflow run a.toml b.toml --output 'the night'", result.Error, StringComparison.Ordinal);
    }

    // The pictures lie beside the folder of the case.
    private static void Case(SmallCase small, string path, string output)
    {
        string up = string.Concat(path.Where(letter => letter == '/').Select(_ => "../"));
        string text = path.EndsWith("case.toml", StringComparison.Ordinal) ? SmallCase.Text : SmallCase.Text
            .Replace("frames/*.png", $"{up}frames/*.png", StringComparison.Ordinal)
            .Replace("reference.png", $"{up}reference.png", StringComparison.Ordinal);
        small.Write(path, $"{text}[output]\nfolder = \"{output}\"\n");
    }
}
