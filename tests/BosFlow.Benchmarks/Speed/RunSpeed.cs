using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Endurance;
using BosFlow.Benchmarks.Peers;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;
using BosFlow.Footage;
using BosFlow.TestKit;
using OpenCvSharp;

namespace BosFlow.Benchmarks.Speed;

/// <summary>Time and memory of the command "run" as a process of its own.</summary>
internal static class RunSpeed
{
    public static IEnumerable<IReadOnlyList<string>> Rows(BenchmarkScene scene, int frames, int rounds)
    {
        using var folder = new TemporaryFolder();
        string halfCase = WriteCase(folder, scene, "half", frames / 2);
        string wholeCase = WriteCase(folder, scene, "whole", frames);
        foreach (int threads in new[] { 1, Environment.ProcessorCount }.Distinct())
        {
            WholeRun[] half = [.. Enumerable.Range(0, rounds).Select(_ => Run(folder, halfCase, threads))];
            WholeRun[] whole = [.. Enumerable.Range(0, rounds).Select(_ => Run(folder, wholeCase, threads))];
            double seconds = Median.Of([.. whole.Select(run => run.Seconds)]);
            double further = (seconds - Median.Of([.. half.Select(run => run.Seconds)])) / (frames - (frames / 2));
            yield return
            [
                string.Create(CultureInfo.InvariantCulture, $"{scene.Reference.Width} x {scene.Reference.Height}"),
                frames.ToString(CultureInfo.InvariantCulture),
                threads.ToString(CultureInfo.InvariantCulture),
                seconds.ToString("0.0", CultureInfo.InvariantCulture),
                (frames / seconds).ToString("0.0", CultureInfo.InvariantCulture),
                further > 0 ? further.ToString("0.000", CultureInfo.InvariantCulture) : "-",
                whole.Max(run => run.Megabytes).ToString("0", CultureInfo.InvariantCulture),
            ];
        }
    }

    private static string WriteCase(TemporaryFolder folder, BenchmarkScene scene, string name, int frames)
    {
        Write(folder.PathOf(name, "reference.png"), scene.Reference);
        for (int i = 0; i < frames; i++)
            Write(folder.PathOf(name, "frames", string.Create(CultureInfo.InvariantCulture, $"{i:000}.png")), scene.Frames[i % scene.Frames.Count]);
        return folder.Write($"{name}/case.toml", """
            [footage]
            frames = "frames/*.png"
            frame_rate_hz = 60.0

            [reference]
            image = "reference.png"

            [rig]
            lens_to_flow_mm = 1200.0
            flow_to_background_mm = 800.0
            background_mm_per_px = 0.31
            """);
    }

    private static void Write(string path, GrayImage picture)
    {
        using Mat pixels = EightBitPictures.ToMat(picture);
        Cv2.ImWrite(path, pixels);
    }

    /// <summary>Runs a case once and takes the results away.</summary>
    public static WholeRun Run(TemporaryFolder folder, string caseFile, int threads)
    {
        string output = folder.PathOf("run");
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "BosFlow.Cli.dll"), "run", caseFile, "--output", output, "--threads", threads.ToString(CultureInfo.InvariantCulture), "--quiet"])
        {
            RedirectStandardOutput = true,
        };
        double processorBefore = ProcessorTime.OfEndedChildren;
        long begin = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        double peak = 0;
        while (!process.WaitForExit(20))
            peak = Math.Max(peak, ProcessMemory.PeakMegabytes(process.Id));
        double seconds = Stopwatch.GetElapsedTime(begin).TotalSeconds;
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"The run ended with exit code {process.ExitCode}; its message is above.");
        Directory.Delete(output, recursive: true);
        return new WholeRun(seconds, ProcessorTime.OfEndedChildren - processorBefore, peak);
    }
}
