using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Benchmarks.Speed;

/// <summary>Frames a second of the displacement engine alone.</summary>
internal static class EngineSpeed
{
    private const int FramesEachThread = 4;

    public static IEnumerable<IReadOnlyList<string>> Rows(BenchmarkScene scene, int rounds)
    {
        int threads = Environment.ProcessorCount;
        foreach ((string name, DisplacementSettings settings) in new[] { ("standard", EngineSettings.Standard), ("fast", EngineSettings.Fast) })
        {
            var engine = new DisplacementEngine(scene.Reference, PixelMask.All(scene.Reference.Width, scene.Reference.Height), settings);
            FramesPerSecond(engine, scene, threads);
            double one = Median.Of([.. Enumerable.Range(0, rounds).Select(_ => FramesPerSecond(engine, scene, 1))]);
            double all = Median.Of([.. Enumerable.Range(0, rounds).Select(_ => FramesPerSecond(engine, scene, threads))]);
            yield return
            [
                string.Create(CultureInfo.InvariantCulture, $"{scene.Reference.Width} x {scene.Reference.Height}"),
                name,
                one.ToString("0.0", CultureInfo.InvariantCulture),
                all.ToString("0.0", CultureInfo.InvariantCulture),
                (all / one).ToString("0.00", CultureInfo.InvariantCulture),
            ];
        }
    }

    private static double FramesPerSecond(DisplacementEngine engine, BenchmarkScene scene, int threads)
    {
        int count = threads * FramesEachThread;
        long start = Stopwatch.GetTimestamp();
        Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = threads }, i =>
            engine.Measure(scene.Frames[i % scene.Frames.Count], PlanarMotion.Identity, CancellationToken.None));
        return count / Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
