using System.Globalization;
using System.Text;
using BosFlow.Benchmarks.Peers;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Benchmarks.Scenes;

namespace BosFlow.Benchmarks.Performance;

/// <summary>Speed and error at 4K with 75 % overlap beside dense optical flow, the cost of a pixel, and the memory of a frame, as a report.</summary>
internal static class PerformanceMeasurement
{
    public static void Run(MeasurementOptions options)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"""
            # Performance at 4K with 75 % overlap

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- performance --rounds {options.Rounds}` on {MachineDescription.Line()}.

            One pair of pictures of 3840 x 2160 px, bytes in and vectors out: windows of 32 px, a vector every 8 px. A frame is divided among the threads; BosFlow's
            reference is prepared before the clock starts, as in a run. All methods measure the same pictures in the same run, in turns; times are medians of
            {options.Rounds} rounds and depend on what else the machine does: read the ratios. Before every timing the method measures one frame that is not counted, as in the
            middle of a long run, and a timing is the mean of as many frames as a second holds. "Times BosFlow" is a method's time over that of "fast".
            Dense flow is averaged over the windows, untimed; BosFlow writes a result over the one before, as in a run; phase correlation is told the true displacement in whole pixels.

            """);
        foreach (int noise in (int[])[0, 2])
        {
            BenchmarkScene scene = BenchmarkScene.Wavy(3840, 2160, noise);
            Console.Error.WriteLine($"{noise} % noise");
            var fast = new EnginePeer("fast, spacing 8 px", scene.Reference, EngineSettings.FastDense);
            var finest = new EnginePeer("finest", scene.Reference, EngineSettings.Finest);
            var task = new NodeTask(scene, fast.Grid, EngineSettings.FastDense.WindowPixels);
            using var openCv = new DebianOpenCv(task);
            IPeer[] peers = [fast, finest, DebianOpenCvPeer.DisFast(openCv), .. DebianOpenCvPeer.All(openCv)];
            IReadOnlyList<PeerScore> scores = PeerComparison.Run(task, peers, options.Rounds);
            PeerMeasurement.Append(text, scene, scores);
            text.Append(CultureInfo.InvariantCulture, $"\n{fast.Grid.Count} vectors.\n");
            text.Append(AskedRatios.Table(scores));
        }

        text.Append(CultureInfo.InvariantCulture, $"\n## Cost of a pixel\n\nOne thread, 2 % noise; memory is what a frame allocates in the steady state, its result included, which is written over the one before; collections are counted after a full one. The pictures take turns of equal numbers of pixels; times and ratios are medians over {PixelCosts.Turns} turns.\n\n");
        text.Append(PixelCosts.Tables());
        ReportFile.Write(options.Output, text.ToString());
    }
}
