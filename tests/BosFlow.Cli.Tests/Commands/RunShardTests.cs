using System.Globalization;
using BosFlow.Cli.Running;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RunShardTests
{
    [Fact]
    public async Task Run_StraightResumedOnAnyThreadsOrInAnyShards_GivesTheSameBytes()
    {
        using var small = new SmallCase(frames: 6);
        small.MakeFlat(3, 0);
        // The first frame of the part that is measured first repeats one that is not in it.
        File.Copy(small.PathOf(SmallCase.FrameName(1)), small.PathOf(SmallCase.FrameName(2)), overwrite: true);
        await RunAsync(small, "straight", "--threads", "1");
        string[] files = ResultsOf(small, "straight");
        Assert.Contains("summary.nc", files);
        Assert.Equal(6, files.Count(file => file.StartsWith("frames/", StringComparison.Ordinal)));

        await RunAsync(small, "resumed", "--threads", "2", "--frames", "2:5");
        await RunAsync(small, "resumed", "--threads", "3");
        foreach (int[] order in new[] { [1], new[] { 3, 1, 2 }, [4, 7, 2, 1, 6, 3, 5] })
        {
            string folder = $"shards-{order.Length}";
            foreach (int number in order)
                await RunAsync(small, folder, "--threads", "2", "--shard", string.Create(CultureInfo.InvariantCulture, $"{number}/{order.Length}"));
            Assert.False(File.Exists(small.PathOf($"{folder}/summary.nc")));
            await RunAsync(small, folder, "--gather");
        }

        foreach (string folder in new[] { "resumed", "shards-1", "shards-3", "shards-7" })
        {
            Assert.Equal(files, ResultsOf(small, folder));
            Assert.All(files, file => Assert.True(File.ReadAllBytes(small.PathOf($"straight/{file}")).AsSpan().SequenceEqual(File.ReadAllBytes(small.PathOf($"{folder}/{file}"))), $"{folder}/{file} differs"));
        }
    }

    [Fact]
    public async Task Run_GatheringWithFramesMissing_NamesThemAndTheShardsAndWritesNoSummary()
    {
        using var small = new SmallCase(frames: 6);
        ProcessResult shard = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--shard", "2/3");

        ProcessResult gathering = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--gather");

        Assert.Contains("Shard:       2 of 3, frames 2 to 3: 2 of 2 measured", shard.Output, StringComparison.Ordinal);
        Assert.Contains("--gather writes summary", shard.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.BadInput, gathering.ExitCode);
        Assert.Contains("4 of 6 frames are not measured yet, so nothing was gathered: 0 to 1, 4 to 5.", gathering.Error, StringComparison.Ordinal);
        Assert.Contains("with --shard 1/3, 3/3 again, then --gather", gathering.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(small.RunFolder, "summary.nc")));
    }

    [Fact]
    public async Task Run_GatheringThatIsRefused_LeavesTheFolderAsItWas()
    {
        using var small = new SmallCase(frames: 3);
        await RunAsync(small, "run", "--shard", "1/3");
        // A damaged frame is told of before the gathering is refused.
        string frame = small.PathOf("run/frames/000000.nc");
        await File.WriteAllBytesAsync(frame, (await File.ReadAllBytesAsync(frame))[..^8]);
        Dictionary<string, byte[]> before = AllOf(small.RunFolder);

        ProcessResult refused = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--gather");

        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains("3 of 3 frames are not measured yet", refused.Error, StringComparison.Ordinal);
        Assert.Equal(before, AllOf(small.RunFolder));

        await RunAsync(small, "run", "--shard", "1/1");
        await RunAsync(small, "run", "--gather");
        string log = await File.ReadAllTextAsync(small.PathOf("run/log.txt"));
        Assert.Contains("the gathering of its shards, 3 frames", log, StringComparison.Ordinal);
        Assert.Contains("3 of 3 frames measured", log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_MoreShardsThanFrames_TheEmptyOnesAreDoneAtOnce()
    {
        using var small = new SmallCase(frames: 1);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--shard", "1/2");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("1 of 2 has nothing to do: there are 1 frames", result.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--shard", "0/3")]
    [InlineData("--shard", "4/3")]
    [InlineData("--shard", "3")]
    [InlineData("--shard", "1/3", "--restart")]
    [InlineData("--gather", "--restart")]
    [InlineData("--shard", "1/3", "--gather")]
    public async Task Run_PartsThatMakeNoSense_AreRefusedAndNothingIsWritten(params string[] options)
    {
        using var small = new SmallCase(frames: 1);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, ["run", "case.toml", .. options]);

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains(options[^1] == "--restart" ? "--restart" : options[0], result.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.RunFolder));
    }

    [Fact]
    public async Task Run_FolderInUse_IsRefusedAndRenderToo()
    {
        using var small = new SmallCase(frames: 1);
        await RunAsync(small, "run");
        PreparedRun prepared = RunPreparation.Prepare(new RunSettings { CasePath = small.PathOf("case.toml") }, CancellationToken.None);
        using (RunFolder.Open(small.RunFolder, prepared.Identity, new RunOpening(), TimeProvider.System, CancellationToken.None))
        {
            foreach (string[] command in new[] { ["run", "case.toml"], ["run", "case.toml", "--restart"], ["run", "case.toml", "--shard", "1/2"], ["run", "case.toml", "--gather"], new[] { "render", "run" } })
            {
                ProcessResult refused = await CliRun.InsideAsync(small.Folder, command);
                Assert.Equal(ExitCode.BadInput, refused.ExitCode);
                Assert.Contains("is in use (the whole run, process", refused.Error, StringComparison.Ordinal);
            }
        }

        Assert.True(File.Exists(Path.Combine(small.RunFolder, "summary.nc")));
        await RunAsync(small, "run");
    }

    [Fact]
    public async Task Run_CaseChangedBeforeTheGathering_IsRefusedWithTheDifference()
    {
        using var small = new SmallCase(frames: 2);
        await RunAsync(small, "run", "--shard", "1/1");
        small.Append("[gas]\nambient_temperature_c = 30\n");

        foreach (string[] options in new[] { ["--gather"], new[] { "--shard", "1/1" } })
        {
            ProcessResult refused = await CliRun.InsideAsync(small.Folder, ["run", "case.toml", .. options]);
            Assert.Equal(ExitCode.BadInput, refused.ExitCode);
            Assert.Contains("holds the results of another run: gas.", refused.Error, StringComparison.Ordinal);
        }
    }

    private static async Task RunAsync(SmallCase small, string folder, params string[] options)
    {
        ProcessResult result = await CliRun.InsideAsync(small.Folder, ["run", "case.toml", "--output", folder, .. options]);
        Assert.True(result.ExitCode is ExitCode.Done or ExitCode.DoneWithLosses, result.Error);
    }

    private static Dictionary<string, byte[]> AllOf(string folder) => Directory.GetFileSystemEntries(folder, "*", SearchOption.AllDirectories)
        .ToDictionary(path => Path.GetRelativePath(folder, path), path => Directory.Exists(path) ? [] : File.ReadAllBytes(path));

    // Everything but what knows clock and machine.
    private static string[] ResultsOf(SmallCase small, string folder) =>
    [
        .. Directory.GetFiles(small.PathOf(folder), "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(small.PathOf(folder), path))
            .Where(file => file is not ("run.json" or "timing.csv" or "log.txt") && !file.StartsWith("shards", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal),
    ];
}
