using System.Diagnostics;
using System.Globalization;
using BosFlow.Media;
using BosFlow.Speckle;
using BosFlow.Synthesis;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Triage;

/// <summary>How long the command takes for a take of ten minutes at 3840 x 2160: a rendered second, written over and over into one file.</summary>
/// <param name="Seconds">Duration of each call as a process of its own, s.</param>
/// <param name="Gigabytes">Size of the file, 10^9 bytes.</param>
internal sealed record TriageTiming(IReadOnlyList<double> Seconds, double Gigabytes)
{
    /// <summary>Frames of the rendered second.</summary>
    public const int FrameRate = 30;

    /// <summary>How often it is repeated.</summary>
    public const int Repetitions = 600;

    private const double MegabitsPerSecond = 50;
    private const int MostSeconds = 600;

    /// <summary>Makes the take, judges it and deletes it.</summary>
    /// <param name="rounds">How often it is judged.</param>
    /// <param name="folder">Where it stands meanwhile: 4 gigabytes.</param>
    public static TriageTiming Measure(int rounds, string folder)
    {
        var recipe = new SceneRecipe
        {
            Width = 3840,
            Height = 2160,
            FrameCount = FrameRate,
            FlowOffCount = FrameRate,
            FrameRateHz = FrameRate,
            Flow = new FlowRecipe.Shift(0, 0),
            Speckle = new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.03, ContrastFrom = 0.3, ContrastTo = 0.55, MarginPixels = 40, Seed = 71 },
            Sensor = new SensorSettings { NoisePercent = 1 },
            Vibration = new VibrationSettings { LowHertz = 2, HighHertz = 40, ShiftRmsPixels = 1.5 },
            Seed = 72,
        };
        var scene = new SyntheticScene(recipe, CancellationToken.None);
        string second = Path.Combine(folder, "second.mp4"), take = Path.Combine(folder, "take.mp4");
        var encoding = new VideoEncoding { MegabitsPerSecond = MegabitsPerSecond, KeyFrameEvery = FrameRate };
        VideoFileWriter.Write(second, Enumerable.Range(0, FrameRate).Select(frame => scene.Render(frame, CancellationToken.None)), FrameRate, encoding, CancellationToken.None);
        Call("ffmpeg", "-v", "error", "-y", "-stream_loop", (Repetitions - 1).ToString(CultureInfo.InvariantCulture), "-i", second, "-c", "copy", take);
        double[] seconds = [.. Enumerable.Range(0, rounds).Select(_ => Call("dotnet", Path.Combine(AppContext.BaseDirectory, "BosFlow.Cli.dll"), "triage", take))];
        return new TriageTiming(seconds, new FileInfo(take).Length / 1e9);
    }

    // Exit code 3 is a verdict, not a failure.
    private static double Call(string program, params string[] arguments)
    {
        long start = Stopwatch.GetTimestamp();
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(MostSeconds));
        ProcessResult result = ProcessRunner.RunAsync(program, arguments, cancellationToken: limit.Token).GetAwaiter().GetResult();
        return result.ExitCode is 0 or 3
            ? Stopwatch.GetElapsedTime(start).TotalSeconds
            : throw new InvalidOperationException($"{program} ended with exit code {result.ExitCode}: {result.Error}");
    }
}
