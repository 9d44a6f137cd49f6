using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Peers;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;

namespace BosFlow.Benchmarks.Performance;

/// <summary>What a pixel costs in pictures of several sizes, and what a frame allocates. The sizes take turns, so that a clock that drifts is in all of them alike.</summary>
internal sealed class PixelCosts
{
    /// <summary>How often every picture has its turn.</summary>
    public const int Turns = 15;

    private const long PixelsPerTurn = 10L * 3840 * 2160;
    private const double AskedRatio = 1.15;
    private static readonly (int Width, int Height)[] Sizes = [(1280, 720), (1920, 1080), (3840, 2160)];

    private readonly List<Entry> entries = [];

    private PixelCosts()
    {
        foreach ((int width, int height) in Sizes)
        {
            BenchmarkScene scene = BenchmarkScene.Wavy(width, height, 2);
            byte[] frame = EightBitPictures.Bytes(scene.Frames[0]);
            foreach ((string name, Displacement.DisplacementSettings settings) in new[] { ("fast, spacing 8 px", EngineSettings.FastDense), ("finest", EngineSettings.Finest) })
                entries.Add(new Entry($"{width} x {height}", new EnginePeer(name, scene.Reference, settings), frame));
        }
    }

    /// <summary>Measures, and tells in two tables.</summary>
    public static string Tables()
    {
        var costs = new PixelCosts();
        foreach (Entry entry in costs.entries)
            entry.Warm();
        for (int turn = 0; turn < Turns; turn++)
        {
            foreach (Entry entry in costs.entries)
                entry.TakeTurn();
        }

        string[] names = [.. costs.entries.Select(entry => entry.Engine.Name).Distinct()];
        return MarkdownTable.Of(["picture", "quality", "ms", "ns a pixel", "frames", "allocated, KB a frame", "collections of generation 1"], costs.entries.Select(entry => entry.Row()))
            + "\n" + MarkdownTable.Of(["a pixel of 1280 x 720 px over one of 3840 x 2160 px", "asked for", "reached", ""], names.Select(costs.Ratio));
    }

    // The median over the turns of the ratio within a turn.
    private string[] Ratio(string name)
    {
        Entry[] sizes = [.. entries.Where(entry => entry.Engine.Name == name)];
        double ratio = Median.Of([.. sizes[0].Seconds.Zip(sizes[^1].Seconds, (small, large) => small / sizes[0].Pixels / (large / sizes[^1].Pixels))]);
        return [name, FormattableString.Invariant($"{1 / AskedRatio:0.00} to {AskedRatio}"), ratio.ToString("0.00", CultureInfo.InvariantCulture), ratio <= AskedRatio && ratio >= 1 / AskedRatio ? "met" : "missed"];
    }

    private sealed class Entry(string picture, EnginePeer engine, byte[] frame)
    {
        private readonly int repeats = (int)(PixelsPerTurn / frame.Length);
        private long allocated;
        private int collections;

        public EnginePeer Engine => engine;

        public double Pixels => frame.Length;

        /// <summary>Seconds a frame, one entry a turn.</summary>
        public List<double> Seconds { get; } = [];

        public void Warm() => engine.Repeat(frame, Math.Max(30, repeats));

        public void TakeTurn()
        {
            // What others left is not counted here; the first frame finds the caches as others left them.
            GC.Collect();
            engine.Repeat(frame, 1);
            int collected = GC.CollectionCount(1);
            long before = GC.GetAllocatedBytesForCurrentThread(), start = Stopwatch.GetTimestamp();
            engine.Repeat(frame, repeats);
            Seconds.Add(Stopwatch.GetElapsedTime(start).TotalSeconds / repeats);
            allocated += GC.GetAllocatedBytesForCurrentThread() - before;
            collections += GC.CollectionCount(1) - collected;
        }

        public string[] Row()
        {
            double median = Median.Of([.. Seconds]);
            int frames = repeats * Seconds.Count;
            return [picture, engine.Name, Format(1e3 * median, "0"), Format(1e9 * median / frame.Length, "0.0"), Format(frames, "0"), Format(allocated / 1024.0 / frames, "0.0"), Format(collections, "0")];
        }

        private static string Format(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
    }
}
