using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>How the light of a frame differs from that of the reference, by mean grey levels over the same measurable pixels.</summary>
/// <param name="Gain">Mean level of the frame over that of the reference, 1; NaN where nothing can be compared.</param>
/// <param name="LowestShare">The same in the part of the picture that lost most, over <paramref name="Gain"/>, 1: below 1 where a shadow lies that the reference does not have.</param>
/// <param name="HighestShare">The same in the part that gained most, 1.</param>
public sealed record LightComparison(double Gain, double LowestShare, double HighestShare)
{
    /// <summary>Parts of the picture across.</summary>
    public const int Across = 8;

    /// <summary>Parts of the picture down.</summary>
    public const int Down = 6;

    private const double LeastMeasurableShare = 0.25;

    /// <summary>Nothing is known.</summary>
    public static LightComparison Unknown { get; } = new(double.NaN, double.NaN, double.NaN);

    /// <summary>Compares a frame with the reference. Dots that cross the border of a part, since the frame turned or its rows moved by themselves, change the part by a hundredth or so.</summary>
    /// <param name="frame">The frame, in the grey levels of the reference.</param>
    /// <param name="reference">The reference, of the same size.</param>
    /// <param name="measurable">Pixels that count, of the same size.</param>
    /// <param name="shiftX">By how much the frame shows the background farther right, px.</param>
    /// <param name="shiftY">The same down, px.</param>
    public static LightComparison Of(GrayImage frame, GrayImage reference, PixelMask measurable, int shiftX, int shiftY)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(measurable);
        double[] seen = new double[Across * Down];
        double[] known = new double[Across * Down];
        int[] counts = new int[Across * Down];
        for (int y = Math.Max(0, -shiftY); y < Math.Min(frame.Height, frame.Height - shiftY); y++)
        {
            ReadOnlySpan<float> row = frame.Row(y + shiftY);
            ReadOnlySpan<float> other = reference.Row(y);
            ReadOnlySpan<byte> counting = measurable.Values.Slice(y * frame.Width, frame.Width);
            int down = y * Down / frame.Height * Across;
            for (int across = 0; across < Across; across++)
            {
                int end = Math.Min((across + 1) * frame.Width / Across, frame.Width - Math.Max(0, shiftX));
                int start = Math.Max(across * frame.Width / Across, -shiftX);
                if (start >= end)
                    continue;
                int part = down + across;
                counts[part] += Add(row[(start + shiftX)..(end + shiftX)], other[start..end], counting[start..end], ref seen[part], ref known[part]);
            }
        }

        double gain = seen.Sum() / known.Sum();
        double least = LeastMeasurableShare * frame.Width * frame.Height / (Across * Down);
        double[] shares = [.. Enumerable.Range(0, seen.Length).Where(part => counts[part] >= least && known[part] > 0).Select(part => seen[part] / known[part] / gain)];
        return shares.Length == 0 || !double.IsFinite(gain) ? Unknown : new LightComparison(gain, shares.Min(), shares.Max());
    }

    private static int Add(ReadOnlySpan<float> frame, ReadOnlySpan<float> reference, ReadOnlySpan<byte> measurable, ref double seen, ref double known)
    {
        LaneSum ofFrame = default;
        LaneSum ofReference = default;
        int count = 0;
        for (int x = 0; x < frame.Length; x += PixelLanes.Count)
        {
            Vector256<float> one = PixelLanes.Levels(frame, x);
            Vector256<float> other = PixelLanes.Levels(reference, x);
            // A sum that is not finite is no number once it is taken off itself.
            Vector256<float> sum = one + other;
            byte counting = (byte)(PixelLanes.Counting(measurable, x) & PixelLanes.Numbers(sum - sum));
            ofFrame.Add(PixelLanes.Kept(one, counting));
            ofReference.Add(PixelLanes.Kept(other, counting));
            count += PixelLanes.Number(counting);
        }

        seen += ofFrame.Total;
        known += ofReference.Total;
        return count;
    }
}
