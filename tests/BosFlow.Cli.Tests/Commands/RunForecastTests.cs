using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RunForecastTests
{
    [Fact]
    public async Task DryRun_Case_ForetellsDiskAndWritesNothing()
    {
        using var small = new SmallCase(frames: 6);

        ProcessResult dry = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run");
        ProcessResult json = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run", "--json");
        Assert.False(Directory.Exists(small.RunFolder));
        ProcessResult run = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.Done, dry.ExitCode);
        Assert.Contains("Time:      about ", dry.Output, StringComparison.Ordinal);
        Assert.Contains("Memory:    about ", dry.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, run.ExitCode);
        JsonNode plan = JsonNode.Parse(json.Output)!;
        Assert.Equal(6, (int)plan["frames_to_measure"]!);
        Assert.True((double)plan["seconds"]! > 0);
        double written = new DirectoryInfo(small.RunFolder).EnumerateFiles("*", SearchOption.AllDirectories).Sum(file => file.Length);
        Assert.InRange((long)plan["disk_bytes"]! / written, 0.9, 1.1);
    }

    [Fact]
    public async Task DryRun_FinishedRun_HasNothingToMeasure()
    {
        using var small = new SmallCase(frames: 3);
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        ProcessResult dry = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run", "--json");

        Assert.Equal(0, (int)JsonNode.Parse(dry.Output)!["frames_to_measure"]!);
    }

    [Fact]
    public async Task DryRun_NoFrameCanBeMeasured_SaysWhyAndReturnsLosses()
    {
        using var small = new SmallCase(frames: 2);
        small.MakeFlat(0, 128);
        small.MakeFlat(1, 128);

        ProcessResult dry = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run");

        Assert.Equal(ExitCode.DoneWithLosses, dry.ExitCode);
        Assert.Contains("could be measured", dry.Error, StringComparison.Ordinal);
        Assert.Contains("Time and disk cannot be foretold; give a range of frames", dry.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.RunFolder));
    }

    [Fact]
    public async Task DryRun_Queue_AddsUpItsCases()
    {
        using var small = new SmallCase(frames: 2);
        small.Write("a.toml", SmallCase.Text);
        small.Write("b.toml", "[footage]\nframes = \"nothing/*.png\"\n");

        ProcessResult dry = await CliRun.InsideAsync(small.Folder, "run", "a.toml", "b.toml", "--dry-run", "--output", "night");

        Assert.Equal(ExitCode.BadInput, dry.ExitCode);
        Assert.Contains("Case 1 of 2: a", dry.Output, StringComparison.Ordinal);
        Assert.Contains("1 of 2 cases are in order", dry.Output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.PathOf("night")));
    }

    [Theory]
    [InlineData("4", "is no amount of memory")]
    [InlineData("many", "is no amount of memory")]
    [InlineData("20MiB", "one frame at a time needs about")]
    public async Task MaxMemory_ThatCannotBe_IsRefusedBeforeWork(string amount, string sentence)
    {
        using var small = new SmallCase(frames: 1);

        ProcessResult run = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--max-memory", amount);

        Assert.Equal(ExitCode.BadInput, run.ExitCode);
        Assert.Contains(sentence, run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.RunFolder));
    }
}
