using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Registration;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Speed;

/// <summary>A whole run from a clip in H.264 to netCDF, and what each of its stages takes.</summary>
internal static class VideoSpeed
{
    private const int Frames = 24;
    private const int TimedFrames = 6;
    private const double MegabitsPerSecond = 100;
    private static readonly string[] Qualities = ["fast", "standard"];

    /// <summary>Frames a second of whole runs, one row a quality and number of threads.</summary>
    public static IEnumerable<IReadOnlyList<string>> Rows(BenchmarkScene scene, int rounds)
    {
        using var folder = new TemporaryFolder();
        WriteClip(folder, scene);
        foreach (string quality in Qualities)
        {
            string half = WriteCase(folder, quality, Frames / 2);
            string whole = WriteCase(folder, quality, Frames);
            foreach (int threads in new[] { 1, Environment.ProcessorCount }.Distinct())
            {
                double few = Median.Of([.. Enumerable.Range(0, rounds).Select(_ => RunSpeed.Run(folder, half, threads).Seconds)]);
                (double Seconds, double Megabytes)[] all = [.. Enumerable.Range(0, rounds).Select(_ => RunSpeed.Run(folder, whole, threads))];
                double further = (Median.Of([.. all.Select(run => run.Seconds)]) - few) / (Frames - (Frames / 2));
                yield return
                [
                    string.Create(CultureInfo.InvariantCulture, $"{scene.Reference.Width} x {scene.Reference.Height}"), quality,
                    threads.ToString(CultureInfo.InvariantCulture), further.ToString("0.000", CultureInfo.InvariantCulture),
                    (1 / further).ToString("0.0", CultureInfo.InvariantCulture), all.Max(run => run.Megabytes).ToString("0", CultureInfo.InvariantCulture),
                ];
            }
        }
    }

    /// <summary>What each stage takes of a frame on one thread, the longest first.</summary>
    public static IEnumerable<IReadOnlyList<string>> Stages(BenchmarkScene scene)
    {
        using var folder = new TemporaryFolder();
        WriteClip(folder, scene);
        IFootage footage = FootageOpener.Open(new FootageSettings { Video = "clip.mp4" }, folder.Root, CancellationToken.None);
        var mask = PixelMask.All(scene.Reference.Width, scene.Reference.Height);
        (double reading, List<Frame> frames) = Read(footage);
        GrayImage reference = frames[0].Image!;
        GrayImage[] images = [.. frames.Skip(1).Select(frame => frame.Image!)];
        var light = new ReferenceLight(reference, mask);
        var estimator = new MotionEstimator(reference, mask, new RegistrationSettings());
        PlanarMotion[] motions = [.. images.Select(image => estimator.Estimate(image, CancellationToken.None).Motion.Planar)];
        List<(string Name, double Milliseconds)> stages =
        [
            ("decoding by ffmpeg on all cores and conversion to grey levels", 1000 * reading),
            ("checks of the frame", Each(images, (image, _) => FrameQuality.Assess(image, mask))),
            ("registration", Each(images, (image, _) => estimator.Estimate(image, CancellationToken.None))),
            ("comparison of the light", Each(images, (image, _) => light.Compare(image, 0, 0))),
        ];
        foreach ((string quality, DisplacementSettings settings) in new[] { ("fast", EngineSettings.Fast), ("standard", EngineSettings.Standard) })
        {
            var engine = new DisplacementEngine(reference, mask, settings);
            stages.Add(($"displacement, {quality}", Each(images, (image, i) => engine.Measure(image, motions[i], CancellationToken.None))));
        }

        return stages.OrderByDescending(stage => stage.Milliseconds)
            .Select(stage => (IReadOnlyList<string>)[stage.Name, stage.Milliseconds.ToString("0", CultureInfo.InvariantCulture)]);
    }

    // Seconds for each further frame: the start of ffmpeg is not a frame's.
    private static (double Seconds, List<Frame> First) Read(IFootage footage)
    {
        var first = new List<Frame>();
        long start = 0;
        foreach (Frame frame in footage.Read([.. Enumerable.Range(0, 1 + Frames)], CancellationToken.None))
        {
            if (first.Count == 0)
                start = Stopwatch.GetTimestamp();
            if (first.Count <= TimedFrames)
                first.Add(frame);
        }

        return (Stopwatch.GetElapsedTime(start).TotalSeconds / Frames, first);
    }

    // Once unmeasured, so that the compiler has done its work.
    private static double Each(GrayImage[] images, Action<GrayImage, int> stage)
    {
        double Once()
        {
            long start = Stopwatch.GetTimestamp();
            for (int i = 0; i < images.Length; i++)
                stage(images[i], i);
            return Stopwatch.GetElapsedTime(start).TotalSeconds;
        }

        _ = Once();
        return 1000 * Once() / images.Length;
    }

    private static void WriteClip(TemporaryFolder folder, BenchmarkScene scene) => VideoFileWriter.Write(
        folder.PathOf("clip.mp4"),
        Enumerable.Range(0, 1 + Frames).Select(i => i == 0 ? scene.Reference : scene.Frames[i % scene.Frames.Count]),
        30,
        new VideoEncoding { MegabitsPerSecond = MegabitsPerSecond },
        CancellationToken.None);

    private static string WriteCase(TemporaryFolder folder, string quality, int frames) => folder.Write($"{quality}-{frames}.toml", FormattableString.Invariant($"""
        [footage]
        video = "clip.mp4"
        use = "1:{frames + 1}"

        [reference]
        use = "0"

        [displacement]
        quality = "{quality}"

        [rig]
        lens_to_flow_mm = 1200.0
        flow_to_background_mm = 800.0
        background_mm_per_px = 0.31
        """));
}
