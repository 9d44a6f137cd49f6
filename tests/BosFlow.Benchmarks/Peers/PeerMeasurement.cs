using System.Globalization;
using System.Text;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;

namespace BosFlow.Benchmarks.Peers;

/// <summary>The comparison with general-purpose methods, as a report.</summary>
internal static class PeerMeasurement
{
    public static void Run(MeasurementOptions options)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"""
            # BosFlow beside general-purpose methods

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- peers{(options.Large ? " --large" : "")} --rounds {options.Rounds}` on {MachineDescription.Line()}.

            All methods measure the same pictures in the same run, in turns; times are medians of {options.Rounds} rounds for one pair of pictures.
            They depend on the machine and what else it does: read the ratios, not the milliseconds. "Times BosFlow" is
            a method's time over that of "windowed, standard". The pictures are synthetic: dots of 3 px, 8 bits, displaced analytically,
            noise of 0 or 2 % of full scale in both pictures; errors are against the exact displacement at the centres of windows of 32 x 32 px,
            {NodeTask.MarginPixels} px and more from the edges. Dense flow is averaged over the same windows; phase correlation is told the true
            displacement in whole pixels. BosFlow's reference is prepared before the clock starts, as in a run; the line below each table says how long that took.
            Conversion of pictures is not timed for any method. With all cores BosFlow measures several frames at once, OpenCV divides one.

            - bias: largest mean error of u or v over the frames; RMS and 99th percentile: over u and v of all nodes and frames; none: nodes without a value

            """);
        foreach ((int width, int height) in options.Large ? [(1280, 720), (3840, 2160)] : new[] { (1280, 720) })
        {
            foreach (int noise in (int[])[0, 2])
            {
                foreach (BenchmarkScene scene in (BenchmarkScene[])[BenchmarkScene.Shifts(width, height, noise), BenchmarkScene.Wavy(width, height, noise)])
                {
                    Console.Error.WriteLine($"{scene.Name}, {width} x {height}, {noise} % noise");
                    Append(text, scene, PeerComparison.Run(scene, options.Rounds));
                }
            }
        }

        ReportFile.Write(options.Output, text.ToString());
    }

    internal static void Append(StringBuilder text, BenchmarkScene scene, IReadOnlyList<PeerScore> scores)
    {
        PeerScore own = scores[0];
        string[] header = ["method", "library", "bias, px", "RMS, px", "99 %, px", "none", "ms, 1 thread", "times BosFlow", "ms, all cores", "times BosFlow"];
        IEnumerable<IReadOnlyList<string>> rows = scores.Select(score => (string[])
        [
            score.Peer.Name,
            score.Peer.Library,
            Format(score.WorstBias, "0.0000"),
            Format(score.Rms, "0.0000"),
            Format(score.P99, "0.000"),
            Format(100 * score.Missing, "0.0") + " %",
            Format(1000 * score.OneThreadSeconds, "0"),
            Format(score.OneThreadSeconds / own.OneThreadSeconds, "0.0"),
            Format(1000 * score.AllThreadsSeconds, "0"),
            Format(score.AllThreadsSeconds / own.AllThreadsSeconds, "0.0"),
        ]);
        text.Append(CultureInfo.InvariantCulture, $"\n## {scene.Name}, {scene.Reference.Width} x {scene.Reference.Height} px, {scene.NoisePercent} % noise\n\n");
        text.Append(MarkdownTable.Of(header, rows));
        if (!scores.Any(score => score.Peer is BosFlowPeer))
            return;
        IEnumerable<string> preparations = scores.Select(score => score.Peer).OfType<BosFlowPeer>()
            .Select(peer => $"{Format(1000 * peer.PreparationSeconds, "0")} ms ({peer.Name})");
        text.Append(CultureInfo.InvariantCulture, $"\nPreparing BosFlow's reference once: {string.Join(", ", preparations)}, the first with the time to compile.\n");
    }

    private static string Format(double value, string format) => double.IsNaN(value) ? "-" : value.ToString(format, CultureInfo.InvariantCulture);
}
