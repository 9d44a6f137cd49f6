using System.Globalization;
using BosFlow.Benchmarks.Scenes;
using BosFlow.Media;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Speed;

/// <summary>Whole runs from a clip in H.264 to netCDF.</summary>
internal sealed class VideoSpeed : IDisposable
{
    /// <summary>Frames a second that are asked for with two threads.</summary>
    public const double Asked = 8;

    /// <summary>Frames of the clip behind the reference.</summary>
    public const int Frames = 60;

    private const int FewFrames = 12;
    private const double MegabitsPerSecond = 100;
    private const double IdleShare = 0.1;

    private readonly TemporaryFolder folder = new();

    /// <summary>Writes the clip.</summary>
    public VideoSpeed(BenchmarkScene scene) => VideoFileWriter.Write(
        folder.PathOf(ClipName),
        Enumerable.Range(0, 1 + Frames).Select(i => i == 0 ? scene.Reference : scene.Frames[i % scene.Frames.Count]),
        30,
        new VideoEncoding { MegabitsPerSecond = MegabitsPerSecond },
        CancellationToken.None);

    /// <summary>Name of the clip in <see cref="Folder"/>.</summary>
    public static string ClipName => "clip.mp4";

    /// <summary>Where the clip is.</summary>
    public string Folder => folder.Root;

    /// <summary>Measures further frames: the difference between a long and a short run, without start, reference, maps and report.</summary>
    /// <param name="quality">Quality of the displacement.</param>
    /// <param name="threads">Threads of the run.</param>
    /// <param name="rounds">The least of so many rounds counts: what else the machine does only adds.</param>
    /// <returns>Time on the clock and processor time of one further frame; largest resident size.</returns>
    public WholeRun FurtherFrame(string quality, int threads, int rounds)
    {
        string few = WriteCase(quality, FewFrames), all = WriteCase(quality, Frames);
        var shorter = new List<WholeRun>();
        var longer = new List<WholeRun>();
        for (int round = 0; round < rounds; round++)
        {
            shorter.Add(RunSpeed.Run(folder, few, threads));
            longer.Add(RunSpeed.Run(folder, all, threads));
        }

        return new WholeRun(
            (longer.Min(run => run.Seconds) - shorter.Min(run => run.Seconds)) / (Frames - FewFrames),
            (longer.Min(run => run.ProcessorSeconds) - shorter.Min(run => run.ProcessorSeconds)) / (Frames - FewFrames),
            longer.Max(run => run.Megabytes));
    }

    /// <summary>One row of the table of runs.</summary>
    public static IReadOnlyList<string> Row(string quality, int threads, WholeRun frame)
    {
        static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
        double possible = Environment.ProcessorCount / frame.ProcessorSeconds;
        return
        [
            quality, Text(threads, "0"), Text(1000 * frame.Seconds, "0"), Text(1 / frame.Seconds, "0.0"), Text(1000 * frame.ProcessorSeconds, "0"), Text(possible, "0.0"),
            threads != Environment.ProcessorCount ? "" : 1 / frame.Seconds >= Asked ? "met" : "missed", Text(frame.Megabytes, "0"),
        ];
    }

    /// <summary>Says in words what keeps a run from being faster.</summary>
    /// <param name="quality">Quality of the displacement.</param>
    /// <param name="frame">A further frame with all cores.</param>
    /// <param name="stages">Processor time of the stages, the longest first, ms.</param>
    public static string Limit(string quality, WholeRun frame, IReadOnlyList<(string Name, double Milliseconds)> stages)
    {
        int cores = Environment.ProcessorCount;
        double busy = frame.ProcessorSeconds / (cores * frame.Seconds);
        string why = busy >= 1 - IdleShare
            ? "the cores are busy all the time, so that processor time is the limit"
            : "the rest of the time they wait for each other or did other work of the machine";
        return string.Create(CultureInfo.InvariantCulture,
            $"Quality {quality}, {cores} cores: a frame takes {1000 * frame.ProcessorSeconds:0} ms of processor time, {100 * Math.Min(1, busy):0} % of what the cores had; {why}. The longest stage is {stages[0].Name} ({stages[0].Milliseconds:0} ms), then {stages[1].Name} ({stages[1].Milliseconds:0} ms). {Asked:0} frames/s leave {1000 * cores / Asked:0} ms.");
    }

    public void Dispose() => folder.Dispose();

    private string WriteCase(string quality, int frames) => folder.Write($"{quality}-{frames}.toml", FormattableString.Invariant($"""
        [footage]
        video = "{ClipName}"
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
