using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>Arithmetic mean; memory does not grow with the number of frames.</summary>
internal sealed class MeanCombination(int pixels) : IFrameCombination
{
    private readonly double[] sums = new double[pixels];
    private readonly int[] counts = new int[pixels];

    public int FrameCount { get; private set; }

    public string? Warning => null;

    public FineSpline? Underlying => null;

    public void Add(AlignedFrame frame)
    {
        float[] aligned = frame.Pixels;
        for (int i = 0; i < aligned.Length; i++)
        {
            if (float.IsNaN(aligned[i]))
                continue;
            sums[i] += aligned[i];
            counts[i]++;
        }

        FrameCount++;
    }

    public float[] Combine()
    {
        float[] mean = new float[sums.Length];
        for (int i = 0; i < mean.Length; i++)
            mean[i] = counts[i] == 0 ? float.NaN : (float)(sums[i] / counts[i]);
        return mean;
    }
}
