using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RunCommandTests
{
    [Fact]
    public async Task Run_SmallCase_MeasuresTheKnownShift()
    {
        using var small = new SmallCase();

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        Assert.Contains("Frames:      4 of 4 measured", result.Output, StringComparison.Ordinal);
        Assert.Contains(Path.Combine(small.RunFolder, "report.html"), result.Output, StringComparison.Ordinal);
        RunSummary summary = Results.Runs.RunFolder.ReadSummary(small.RunFolder);
        double[] u = [.. summary.Statistics.MeanU.Where((value, i) => summary.Statistics.PrevailingFlags[i] == VectorFlags.None).Select(value => (double)value)];
        Assert.True(u.Length > summary.Statistics.Grid.Count / 2);
        // Four frames with 1 % noise and windows of 32 px: far below a hundredth of a pixel on the mean over the grid.
        Assert.InRange(u.Average(), SmallCase.ShiftPixels - 0.01, SmallCase.ShiftPixels + 0.01);
        Assert.Contains("case.toml", await File.ReadAllTextAsync(Path.Combine(small.RunFolder, "log.txt")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_CaseThatAsksForADensity_TellsItsMainFigureInWordsAndJson()
    {
        using var small = new SmallCase(frames: 2);
        small.Append("[flow]\nambient_edges = [\"left\"]\n");

        ProcessResult words = await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        ProcessResult json = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--json");

        Assert.Contains("Density:     path integral of its difference, ", words.Output, StringComparison.Ordinal);
        Assert.Contains("kg m-2 (1 sigma) where it differs most, at x = ", words.Output, StringComparison.Ordinal);
        Assert.Contains("No uncertainty is stated for: ", words.Error, StringComparison.Ordinal);
        JsonNode document = JsonNode.Parse(json.Output)!;
        Assert.Equal("density_path", (string?)document["density"]!["quantity"]);
        Assert.Contains(document["warnings"]!.AsArray(), w => ((string?)w)!.StartsWith("No uncertainty is stated for: ", StringComparison.Ordinal));
        // An even shift is an even gradient: its integral grows evenly from zero at the left edge's nodes to the right.
        RunSummary summary = Results.Runs.RunFolder.ReadSummary(small.RunFolder);
        NodeGrid grid = summary.Statistics.Grid;
        double gradient = SmallCase.ShiftPixels * summary.Scale!.DensityGradientPathPerPixel;
        double expected = gradient * grid.Spacing * (grid.Columns - 1) * summary.Scale.FlowMetresPerPixel;
        Assert.Equal(expected, (double)document["density"]!["main"]!["value"]!, Math.Abs(expected) * 0.03);
    }

    [Fact]
    public async Task Run_Again_FindsEverythingDone()
    {
        using var small = new SmallCase(frames: 2);
        await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--frames", "0");
        DateTime first = File.GetLastWriteTimeUtc(Path.Combine(small.RunFolder, "frames", "000000.nc"));

        ProcessResult second = await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        ProcessResult third = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Contains("2 of 2 measured; 1 were there already", second.Output, StringComparison.Ordinal);
        Assert.Contains("2 of 2 measured; all of them were there already", third.Output, StringComparison.Ordinal);
        Assert.Contains("All 2 frames are measured already.", third.Error, StringComparison.Ordinal);
        Assert.Equal(first, File.GetLastWriteTimeUtc(Path.Combine(small.RunFolder, "frames", "000000.nc")));
    }

    [Fact]
    public async Task Run_CaseChanged_IsRefusedUnlessRestarted()
    {
        using var small = new SmallCase(frames: 1);
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        small.Append("[gas]\nambient_temperature_c = 30\n");

        ProcessResult refused = await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        ProcessResult restarted = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--restart");

        Assert.Equal(ExitCode.BadInput, refused.ExitCode);
        Assert.Contains("another run", refused.Error, StringComparison.Ordinal);
        Assert.Contains("--restart", refused.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, restarted.ExitCode);
    }

    [Fact]
    public async Task Run_FrameChanged_IsRefused()
    {
        using var small = new SmallCase(frames: 2);
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        small.MakeFlat(1, 90);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("f1.png", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_BadFrames_AreListedWithTheirReasonsAndTheRestIsMeasured()
    {
        using var small = new SmallCase(frames: 5);
        small.MakeFlat(1, 0);
        small.MakeFlat(2, 255);
        small.MakeFlat(3, 128);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--json");

        Assert.Equal(ExitCode.DoneWithLosses, result.ExitCode);
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal("run", (string?)document["document"]);
        Assert.Equal(ExitCode.DoneWithLosses, (int)document["exit_code"]!);
        Assert.Equal(2, (int)document["frames_measured"]!);
        Assert.Equal([1, 2, 3], document["frames_failed"]!.AsArray().Select(frame => (int)frame!["frame"]!));
        Assert.All(document["frames_failed"]!.AsArray(), frame => Assert.False(string.IsNullOrWhiteSpace((string?)frame!["reason"])));
        Assert.Contains("warning: frame 1 (", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_RepeatedFrame_IsLeftOutAndCountedEverywhere()
    {
        using var small = new SmallCase(frames: 4);
        File.Copy(small.PathOf(SmallCase.FrameName(1)), small.PathOf(SmallCase.FrameName(2)), overwrite: true);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        ProcessResult machine = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--json");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("3 of 4 measured", result.Output, StringComparison.Ordinal);
        Assert.Contains("Left out:    frame 2: It repeats the picture of frame 1", result.Output, StringComparison.Ordinal);
        Assert.Equal(2, (int)JsonNode.Parse(machine.Output)!["frames_rejected"]!.AsArray().Single()!["frame"]!);
        string[] table = File.ReadAllLines(Path.Combine(small.RunFolder, "frames.csv"));
        Assert.Contains(",failure,rejection,warnings", table[0], StringComparison.Ordinal);
        Assert.Equal([3], Enumerable.Range(1, 4).Where(line => table[line].Contains("It repeats the picture of frame 1", StringComparison.Ordinal)));
        Assert.Contains("1 left out for repetition, blur or shake; 0 could not be", File.ReadAllText(Path.Combine(small.RunFolder, "report.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_RepeatedFrameThatIsWanted_IsMeasured()
    {
        using var small = new SmallCase(frames: 2);
        File.Copy(small.PathOf(SmallCase.FrameName(0)), small.PathOf(SmallCase.FrameName(1)), overwrite: true);
        small.WriteCase(SmallCase.Text.Replace("[reference]", "skip_repeats = false\n[reference]", StringComparison.Ordinal));

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Contains("2 of 2 measured", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_NoFrameUsable_FailsByName()
    {
        using var small = new SmallCase(frames: 2);
        small.MakeFlat(0, 0);
        small.MakeFlat(1, 0);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.Failed, result.ExitCode);
        Assert.Contains("error: None of the 2 frames could be measured: frame 0", result.Error, StringComparison.Ordinal);
        Assert.Empty(result.Output);
    }

    [Fact]
    public async Task Run_DryRun_SaysThePlanAndWritesNothing()
    {
        using var small = new SmallCase(frames: 3);

        ProcessResult result = await CliRun.InsideAsync(small.Folder, "run", ".", "--dry-run");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("3 frames, 0 to 2", result.Output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.RunFolder));
    }

    [Fact]
    public async Task Run_DryRunOfAChangedCase_IsRefusedAsTheRunWouldBe()
    {
        using var small = new SmallCase(frames: 1);
        await CliRun.InsideAsync(small.Folder, "run", "case.toml");
        ProcessResult same = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run");
        small.Append("[gas]\nambient_temperature_c = 30\n");

        ProcessResult changed = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run");

        Assert.Contains($"would go on in {small.RunFolder}", same.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.BadInput, changed.ExitCode);
        Assert.Contains("another run", changed.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_AnyNumberOfThreads_GivesTheSameBytes()
    {
        using var small = new SmallCase();

        await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--threads", "1", "--output", "one", "--quiet");
        await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--threads", "3", "--output", "three", "--quiet");

        foreach (string file in new[] { "summary.nc", "frames.csv", "frames/000002.nc" })
            Assert.Equal(await File.ReadAllBytesAsync(small.PathOf("one/" + file)), await File.ReadAllBytesAsync(small.PathOf("three/" + file)));
    }

    [Fact]
    public async Task Run_AsProcessWithJson_StdoutIsOneDocument()
    {
        using var small = new SmallCase(frames: 2);

        ProcessResult result = await CliRun.ProcessAsync(small.Folder, "run", "case.toml", "--json", "--quiet");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal(2, (int)document["frames_measured"]!);
        Assert.True(File.Exists((string?)document["log"]));
        Assert.DoesNotContain("\u001b", result.Output + result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_Cancelled_Returns130AndGoesOnLater()
    {
        using var small = new SmallCase(frames: 2);
        using var cancelled = new CancellationTokenSource();
        await cancelled.CancelAsync();

        ProcessResult result = await CliRun.InsideAsync(small.Folder, cancelled.Token, "run", "case.toml");
        ProcessResult again = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.Interrupted, result.ExitCode);
        Assert.Contains("Give the same command again: it does what is left.", result.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, again.ExitCode);
    }
}
