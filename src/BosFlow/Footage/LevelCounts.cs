using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>Sums over the grey levels of the measurable pixels.</summary>
/// <param name="Measurable">Pixels of the mask.</param>
/// <param name="Valid">Those that are not NaN.</param>
/// <param name="Saturated">Those at or above the white level.</param>
/// <param name="Mean">Mean of the valid pixels; NaN where there is none.</param>
/// <param name="Contrast">Standard deviation of the valid pixels; NaN where there is none.</param>
/// <param name="LargestMagnitude">Largest absolute grey level of the valid pixels.</param>
internal sealed record LevelCounts(long Measurable, long Valid, long Saturated, double Mean, double Contrast, double LargestMagnitude)
{
    internal static LevelCounts Of(GrayImage image, PixelMask mask)
    {
        long measurable = 0;
        long valid = 0;
        long saturated = 0;
        LaneSum sum = default;
        Vector256<float> largest = default;
        Vector256<float> white = Vector256.Create(image.WhiteLevel);
        ReadOnlySpan<float> pixels = image.Pixels;
        ReadOnlySpan<byte> values = mask.Values;
        for (int i = 0; i < pixels.Length; i += PixelLanes.Count)
        {
            Vector256<float> levels = PixelLanes.Levels(pixels, i);
            byte taking = PixelLanes.Counting(values, i);
            byte counting = (byte)(taking & PixelLanes.Numbers(levels));
            Vector256<float> kept = PixelLanes.Kept(levels, counting);
            sum.Add(kept);
            largest = Vector256.Max(largest, Vector256.Abs(kept));
            measurable += PixelLanes.Number(taking);
            valid += PixelLanes.Number(counting);
            // False where the white level is NaN.
            saturated += PixelLanes.Number((byte)(counting & Vector256.GreaterThanOrEqual(levels, white).ExtractMostSignificantBits()));
        }

        double mean = valid > 0 ? sum.Total / valid : double.NaN;
        float magnitude = 0;
        for (int lane = 0; lane < PixelLanes.Count; lane++)
            magnitude = Math.Max(magnitude, largest[lane]);
        return new LevelCounts(measurable, valid, saturated, mean, Deviation(image, mask, mean, valid), magnitude);
    }

    // A second pass about the mean: sum of squares minus square of sums would lose the digits of a weak contrast.
    private static double Deviation(GrayImage image, PixelMask mask, double mean, long valid)
    {
        if (valid == 0)
            return double.NaN;
        LaneSum squares = default;
        ReadOnlySpan<float> pixels = image.Pixels;
        ReadOnlySpan<byte> values = mask.Values;
        for (int i = 0; i < pixels.Length; i += PixelLanes.Count)
        {
            Vector256<float> levels = PixelLanes.Levels(pixels, i);
            byte counting = (byte)(PixelLanes.Counting(values, i) & PixelLanes.Numbers(levels));
            if (counting == PixelLanes.All)
                squares.AddSquares(levels, mean);
            else
                squares.AddSquares(levels, mean, counting);
        }

        return Math.Sqrt(squares.Total / valid);
    }
}
