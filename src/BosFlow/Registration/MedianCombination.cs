using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>
/// Median of the frames, which are all kept until the end. Where they would take more memory than allowed, every second one is
/// dropped and every second one of those to come is taken, and so on: the frames that are left always spread over all that were added.
/// </summary>
internal sealed class MedianCombination : IFrameCombination
{
    private readonly int pixels;
    private readonly int most;
    private readonly List<float[]> frames = [];
    private int stride = 1;
    private int added;

    /// <summary>Starts without a frame.</summary>
    /// <param name="pixels">Pixels of a frame.</param>
    /// <param name="largestBytes">Memory that the frames may take; three frames are always kept.</param>
    public MedianCombination(int pixels, long largestBytes)
    {
        this.pixels = pixels;
        most = (int)Math.Clamp(largestBytes / (sizeof(float) * (long)pixels), 3, int.MaxValue);
    }

    public int FrameCount => frames.Count;

    public string? Warning => stride == 1
        ? null
        : FormattableString.Invariant($"The median was taken of {frames.Count} of the {added} reference frames, evenly spread, to keep memory bounded.");

    public FineSpline? Underlying => null;

    public void Add(AlignedFrame frame)
    {
        if (added++ % stride != 0)
            return;
        if (frames.Count == most)
        {
            stride *= 2;
            for (int i = frames.Count - 1; i > 0; i--)
            {
                if (i % 2 == 1)
                    frames.RemoveAt(i);
            }

            if ((added - 1) % stride != 0)
                return;
        }

        frames.Add(frame.Pixels);
    }

    public float[] Combine()
    {
        float[] median = new float[pixels];
        float[] values = new float[frames.Count];
        for (int i = 0; i < pixels; i++)
        {
            int count = 0;
            foreach (float[] frame in frames)
            {
                if (!float.IsNaN(frame[i]))
                    values[count++] = frame[i];
            }

            median[i] = Numerics.Robust.Quantiles.Median(values.AsSpan(0, count));
        }

        return median;
    }
}
