using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>The light of the reference picture, that the light of frames is compared with. Immutable; safe for several threads.</summary>
/// <remarks>
/// Compared are sums of grey levels over the same pixels of the background, in parts of the picture. What the reference has in a row of a part is summed once: where all of its pixels count, a frame
/// costs the sum over its own levels alone.
/// </remarks>
public sealed class ReferenceLight
{
    private const double LeastMeasurableShare = 0.25;

    private readonly GrayImage reference;
    private readonly PixelMask measurable;

    // For each row and part: the sum where all pixels count, else NaN.
    private readonly double[] completeSums;

    /// <summary>Sums the reference.</summary>
    /// <param name="reference">The reference picture.</param>
    /// <param name="measurable">Pixels that count, of the same size.</param>
    public ReferenceLight(GrayImage reference, PixelMask measurable)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(measurable);
        this.reference = reference;
        this.measurable = measurable;
        completeSums = new double[reference.Height * LightComparison.Across];
        for (int y = 0; y < reference.Height; y++)
        {
            for (int across = 0; across < LightComparison.Across; across++)
            {
                (int start, int end) = (Start(across), Start(across + 1));
                bool complete = Mask(y)[start..end].IndexOf((byte)0) < 0;
                completeSums[(y * LightComparison.Across) + across] = complete ? Sum(reference.Row(y)[start..end]) : double.NaN;
            }
        }
    }

    /// <summary>Compares a frame with the reference. Dots that cross the border of a part, since the frame turned or its rows moved by themselves, change the part by a hundredth or so.</summary>
    /// <param name="frame">The frame, in the grey levels of the reference and of its size.</param>
    /// <param name="shiftX">By how much the frame shows the background farther right, px.</param>
    /// <param name="shiftY">The same down, px.</param>
    public LightComparison Compare(GrayImage frame, int shiftX, int shiftY)
    {
        ArgumentNullException.ThrowIfNull(frame);
        const int Parts = LightComparison.Across * LightComparison.Down;
        double[] seen = new double[Parts];
        double[] known = new double[Parts];
        int[] counts = new int[Parts];
        float[] room = new float[frame.Width];
        for (int y = Math.Max(0, -shiftY); y < Math.Min(frame.Height, frame.Height - shiftY); y++)
        {
            ReadOnlySpan<float> row = frame.Levels((y + shiftY) * frame.Width, frame.Width, room);
            int down = y * LightComparison.Down / frame.Height * LightComparison.Across;
            for (int across = 0; across < LightComparison.Across; across++)
            {
                (double ofFrame, double ofReference, int count) = InRow(row, y, across, shiftX);
                seen[down + across] += ofFrame;
                known[down + across] += ofReference;
                counts[down + across] += count;
            }
        }

        double gain = seen.Sum() / known.Sum();
        double least = LeastMeasurableShare * frame.Width * frame.Height / Parts;
        double[] shares = [.. Enumerable.Range(0, Parts).Where(part => counts[part] >= least && known[part] > 0).Select(part => seen[part] / known[part] / gain)];
        return shares.Length == 0 || !double.IsFinite(gain) ? LightComparison.Unknown : new LightComparison(gain, shares.Min(), shares.Max());
    }

    private (double OfFrame, double OfReference, int Count) InRow(ReadOnlySpan<float> row, int y, int across, int shiftX)
    {
        int start = Math.Max(Start(across), -shiftX), end = Math.Min(Start(across + 1), row.Length - Math.Max(0, shiftX));
        if (start >= end)
            return (0, 0, 0);
        ReadOnlySpan<float> levels = row[(start + shiftX)..(end + shiftX)];
        double complete = completeSums[(y * LightComparison.Across) + across];
        if (start == Start(across) && end == Start(across + 1) && double.IsFinite(complete))
        {
            // A sum is finite where all levels are.
            double sum = Sum(levels);
            if (double.IsFinite(sum))
                return (sum, complete, levels.Length);
        }

        return SumBoth(levels, reference.Row(y)[start..end], Mask(y)[start..end]);
    }

    private int Start(int across) => across * reference.Width / LightComparison.Across;

    private ReadOnlySpan<byte> Mask(int y) => measurable.Values.Slice(y * reference.Width, reference.Width);

    private static double Sum(ReadOnlySpan<float> levels)
    {
        Vector512<double> sum = default;
        for (int x = 0; x < levels.Length; x += PixelLanes.Count)
            sum += LaneSum.Widened(PixelLanes.Levels(levels, x));
        return LaneSum.Total(sum);
    }

    private static (double OfFrame, double OfReference, int Count) SumBoth(ReadOnlySpan<float> frame, ReadOnlySpan<float> reference, ReadOnlySpan<byte> measurable)
    {
        Vector512<double> ofFrame = default, ofReference = default;
        Vector256<int> count = default;
        for (int x = 0; x < frame.Length; x += PixelLanes.Count)
        {
            Vector256<float> one = PixelLanes.Levels(frame, x), other = PixelLanes.Levels(reference, x);
            // A sum that is not finite is no number once it is taken off itself.
            Vector256<float> sum = one + other;
            Vector256<int> counting = PixelLanes.Counting(measurable, x) & PixelLanes.Numbers(sum - sum);
            ofFrame += LaneSum.Widened(PixelLanes.Kept(one, counting));
            ofReference += LaneSum.Widened(PixelLanes.Kept(other, counting));
            count -= counting;
        }

        return (LaneSum.Total(ofFrame), LaneSum.Total(ofReference), Vector256.Sum(count));
    }
}
