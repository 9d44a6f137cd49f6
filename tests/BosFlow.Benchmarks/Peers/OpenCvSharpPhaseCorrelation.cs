using System.Diagnostics;
using OpenCvSharp;

namespace BosFlow.Benchmarks.Peers;

/// <summary>OpenCV's phase correlation of each window with a Hann window, in this process. It is given the true displacement rounded to whole pixels.</summary>
internal sealed class OpenCvSharpPhaseCorrelation : IPeer
{
    public string Name => "phase correlation per window, Hann, given the true whole-pixel shift";

    public string Library => $"OpenCV {Cv2.GetVersionString()} through OpenCvSharp";

    public bool UsesThreads => false;

    public (double Seconds, NodeResult[] Frames) Measure(NodeTask task, int threads)
    {
        Cv2.SetNumThreads(threads);
        using Mat reference = Floats(task.Scene.Reference);
        using var hann = new Mat();
        Cv2.CreateHanningWindow(hann, new Size(task.WindowPixels, task.WindowPixels), MatType.CV_32FC1);
        double seconds = 0;
        var results = new NodeResult[task.Scene.Frames.Count];
        for (int i = 0; i < results.Length; i++)
        {
            using Mat frame = Floats(task.Scene.Frames[i]);
            results[i] = new NodeResult(new float[task.Left.Length], new float[task.Left.Length]);
            long start = Stopwatch.GetTimestamp();
            Correlate(task, i, reference, frame, hann, results[i]);
            seconds += Stopwatch.GetElapsedTime(start).TotalSeconds;
        }

        return (seconds, results);
    }

    private static void Correlate(NodeTask task, int frameIndex, Mat reference, Mat frame, Mat hann, NodeResult result)
    {
        int side = task.WindowPixels;
        for (int node = 0; node < task.Left.Length; node++)
        {
            int shiftX = (int)Math.Round(task.TruthU[frameIndex][node]);
            int shiftY = (int)Math.Round(task.TruthV[frameIndex][node]);
            using var here = new Mat(reference, new Rect(task.Left[node], task.Top[node], side, side));
            using var there = new Mat(frame, new Rect(task.Left[node] + shiftX, task.Top[node] + shiftY, side, side));
            // OpenCV 4.13 looks beyond the edge of a window that is part of a larger picture: it gets copies.
            using Mat hereAlone = here.Clone();
            using Mat thereAlone = there.Clone();
            Point2d rest = Cv2.PhaseCorrelate(hereAlone, thereAlone, hann, out _);
            result.U[node] = (float)(shiftX + rest.X);
            result.V[node] = (float)(shiftY + rest.Y);
        }
    }

    private static Mat Floats(Footage.GrayImage picture)
    {
        using Mat bytes = EightBitPictures.ToMat(picture);
        var floats = new Mat();
        bytes.ConvertTo(floats, MatType.CV_32FC1);
        return floats;
    }
}
