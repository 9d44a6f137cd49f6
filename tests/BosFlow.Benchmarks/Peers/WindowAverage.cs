using OpenCvSharp;

namespace BosFlow.Benchmarks.Peers;

/// <summary>Dense flow brought to the nodes: its mean over the same window, which is also where it is most exact.</summary>
internal static class WindowAverage
{
    public static NodeResult Of(Mat denseFlow, NodeTask task)
    {
        float[] u = new float[task.Left.Length];
        float[] v = new float[task.Left.Length];
        for (int node = 0; node < u.Length; node++)
        {
            using var window = new Mat(denseFlow, new Rect(task.Left[node], task.Top[node], task.WindowPixels, task.WindowPixels));
            Scalar mean = Cv2.Mean(window);
            u[node] = (float)mean.Val0;
            v[node] = (float)mean.Val1;
        }

        return new NodeResult(u, v);
    }
}
