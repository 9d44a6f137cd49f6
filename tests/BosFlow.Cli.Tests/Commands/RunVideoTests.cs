using BosFlow.Cli.Tests.Kit;
using BosFlow.Displacement;
using BosFlow.Media;
using BosFlow.Pipeline;
using BosFlow.Synthesis;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

/// <summary>The whole command on clips as cameras write them, and on a damaged one: measured with the known shift, or refused with one sentence.</summary>
public sealed class RunVideoTests : IDisposable
{
    private const int Frames = 8;
    private const int FlowOff = 2;
    private const double ShiftX = 0.7;
    private const double ShiftY = -0.4;
    private const double FrameRateHz = 25;
    private readonly TemporaryFolder folder = new();

    public static TheoryData<string, int, int, VideoEncoding> Clips => new()
    {
        { "plain", 192, 128, new VideoEncoding() },
        { "rotated by 90 degrees", 192, 128, new VideoEncoding { RotationDegrees = 90 } },
        { "rotated by 270 degrees", 192, 128, new VideoEncoding { RotationDegrees = 270 } },
        { "odd-sized", 191, 127, new VideoEncoding() },
        { "10-bit HEVC", 192, 128, new VideoEncoding { IsHevc = true, Bits = 10 } },
        { "variable frame rate", 192, 128, new VideoEncoding { PausesBefore = [4, 6, 6] } },
    };

    [Theory]
    [MemberData(nameof(Clips))]
    public async Task Run_ClipOfACamera_MeasuresTheKnownShift(string kind, int width, int height, VideoEncoding encoding)
    {
        WriteClip("clip.mp4", width, height, encoding);
        WriteCase("clip.mp4");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "run", "case.toml");

        Assert.True(result.ExitCode == ExitCode.Done, $"{kind}: {result.Error}");
        Assert.Contains("6 of 6 measured", result.Output, StringComparison.Ordinal);
        RunSummary summary = Results.Runs.RunFolder.ReadSummary(folder.PathOf("run"));
        Assert.Equal((width, height), (summary.Reference.Image.Width, summary.Reference.Image.Height));
        int[] measured = [.. Enumerable.Range(0, summary.Statistics.Grid.Count).Where(node => summary.Statistics.PrevailingFlags[node] == VectorFlags.None)];
        Assert.True(2 * measured.Length > summary.Statistics.Grid.Count, kind);
        // Nearly lossless: the noise of six frames over dozens of windows is below a hundredth of a pixel, a wrong turn would swap or turn the components.
        Assert.Equal(ShiftX, measured.Average(node => summary.Statistics.MeanU[node]), 0.02);
        Assert.Equal(ShiftY, measured.Average(node => summary.Statistics.MeanV[node]), 0.02);
    }

    [Fact]
    public async Task Run_VariableFrameRate_KeepsTheTimesOfTheClip()
    {
        WriteClip("clip.mp4", 192, 128, new VideoEncoding { PausesBefore = [4, 6, 6] });
        WriteCase("clip.mp4");

        await CliRun.InsideAsync(folder.Root, "run", "case.toml");

        double[] times = [.. Results.Runs.RunFolder.ReadSummary(folder.PathOf("run")).Frames.Select(frame => frame.TimeSeconds)];
        double[] expected = [.. new[] { 2, 3, 5, 6, 9, 10 }.Select(turn => turn / FrameRateHz)];
        Assert.All(expected.Zip(times), pair => Assert.Equal(pair.First, pair.Second, 1e-3));
    }

    [Fact]
    public async Task Run_ClipWithoutItsIndex_IsRefusedWithOneSentence()
    {
        WriteClip("whole.mp4", 192, 128, new VideoEncoding());
        byte[] whole = await CopiedAsync("whole.mp4", "last.mp4");
        await File.WriteAllBytesAsync(folder.PathOf("cut.mp4"), whole[..(whole.Length * 6 / 10)]);
        WriteCase("cut.mp4");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "run", "case.toml");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Empty(result.Output);
        string sentence = Assert.Single(result.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("cut.mp4 has no index (its moov atom is missing)", sentence, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.PathOf("run")));
    }

    [Fact]
    public async Task Run_ClipCutInTheMiddle_MeasuresWhatIsThereAndNamesTheRest()
    {
        WriteClip("whole.mp4", 192, 128, new VideoEncoding());
        byte[] whole = await CopiedAsync("whole.mp4", "first.mp4", "-movflags", "+faststart");
        await File.WriteAllBytesAsync(folder.PathOf("cut.mp4"), whole[..(whole.Length * 7 / 10)]);
        WriteCase("cut.mp4");

        ProcessResult result = await CliRun.InsideAsync(folder.Root, "run", "case.toml");

        Assert.Equal(ExitCode.DoneWithLosses, result.ExitCode);
        Assert.Contains("cut.mp4 promises 8 frames", result.Error, StringComparison.Ordinal);
        Assert.Contains("Failed:      frame", result.Output, StringComparison.Ordinal);
        RunSummary summary = Results.Runs.RunFolder.ReadSummary(folder.PathOf("run"));
        Assert.InRange(summary.Frames.Count(frame => frame.IsMeasured), 1, 5);
        Assert.NotNull(summary.Frames[^1].Failure);
    }

    public void Dispose() => folder.Dispose();

    // The same pictures with the index at the end, as a camera writes it, or at the beginning.
    private async Task<byte[]> CopiedAsync(string from, string to, params string[] options)
    {
        ProcessResult copied = await ProcessRunner.RunAsync("ffmpeg", ["-v", "error", "-i", folder.PathOf(from), "-c", "copy", .. options, folder.PathOf(to)]);
        Assert.True(copied.ExitCode == 0, copied.Error);
        return await File.ReadAllBytesAsync(folder.PathOf(to));
    }

    private void WriteClip(string name, int width, int height, VideoEncoding encoding)
    {
        var scene = new SyntheticScene(
            new SceneRecipe
            {
                Width = width,
                Height = height,
                FrameCount = Frames,
                FlowOffCount = FlowOff,
                FrameRateHz = FrameRateHz,
                Flow = new FlowRecipe.Shift(ShiftX, ShiftY),
                Sensor = new SensorSettings { NoisePercent = 1 },
                Seed = 17,
            },
            CancellationToken.None);
        VideoFileWriter.Write(folder.PathOf(name), Enumerable.Range(0, Frames).Select(frame => scene.Render(frame, CancellationToken.None)), FrameRateHz, encoding, CancellationToken.None);
    }

    private void WriteCase(string clip) => folder.Write("case.toml", $"""
        [footage]
        video = "{clip}"
        use = "{FlowOff}:{Frames}"
        [reference]
        use = "0:{FlowOff}"
        [registration]
        motion = "none"
        [displacement]
        quality = "fast"
        """);
}
