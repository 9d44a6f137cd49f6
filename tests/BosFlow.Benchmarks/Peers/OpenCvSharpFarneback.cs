using System.Diagnostics;
using OpenCvSharp;

namespace BosFlow.Benchmarks.Peers;

/// <summary>OpenCV's dense optical flow by polynomial expansion, in this process.</summary>
internal sealed class OpenCvSharpFarneback : IPeer
{
    public string Name => "dense flow, Farneback (winsize 32, 3 levels, 3 iterations, poly 5/1.2)";

    public string Library => $"OpenCV {Cv2.GetVersionString()} through OpenCvSharp";

    public bool UsesThreads => true;

    public (double Seconds, NodeResult[] Frames) Measure(NodeTask task, int threads)
    {
        Cv2.SetNumThreads(threads);
        using Mat reference = EightBitPictures.ToMat(task.Scene.Reference);
        double seconds = 0;
        var results = new NodeResult[task.Scene.Frames.Count];
        for (int i = 0; i < results.Length; i++)
        {
            using Mat frame = EightBitPictures.ToMat(task.Scene.Frames[i]);
            using var flow = new Mat();
            long start = Stopwatch.GetTimestamp();
            Cv2.CalcOpticalFlowFarneback(reference, frame, flow, 0.5, 3, 32, 3, 5, 1.2, OpticalFlowFlags.None);
            seconds += Stopwatch.GetElapsedTime(start).TotalSeconds;
            results[i] = WindowAverage.Of(flow, task);
        }

        return (seconds, results);
    }
}
