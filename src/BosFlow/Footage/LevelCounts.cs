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
        // Sums about a level of the picture itself: sums about zero would lose the digits of a weak contrast.
        float origin = FirstLevel(image, mask);
        float[] room = new float[image.Width];
        Vector256<float> white = Vector256.Create(image.WhiteLevel), wideOrigin = Vector256.Create(origin), largest = default;
        Vector512<double> sum = default, squares = default;
        Vector256<int> measurable = default, valid = default, saturated = default;
        for (int y = 0; y < image.Height; y++)
        {
            ReadOnlySpan<float> pixels = image.Levels(y * image.Width, image.Width, room);
            ReadOnlySpan<byte> values = mask.Values.Slice(y * image.Width, image.Width);
            for (int x = 0; x < pixels.Length; x += PixelLanes.Count)
            {
                Vector256<float> levels = PixelLanes.Levels(pixels, x);
                Vector256<int> taking = PixelLanes.Counting(values, x);
                Vector256<int> counting = taking & PixelLanes.Numbers(levels);
                Vector512<double> difference = LaneSum.Widened(PixelLanes.Kept(levels - wideOrigin, counting));
                sum += difference;
                squares += difference * difference;
                largest = Vector256.Max(largest, Vector256.Abs(PixelLanes.Kept(levels, counting)));
                measurable -= taking;
                valid -= counting;
                // False where the white level is NaN.
                saturated -= counting & Vector256.GreaterThanOrEqual(levels, white).AsInt32();
            }
        }

        float magnitude = 0;
        for (int lane = 0; lane < PixelLanes.Count; lane++)
            magnitude = Math.Max(magnitude, largest[lane]);
        int count = Vector256.Sum(valid);
        double offset = LaneSum.Total(sum) / count;
        double variance = Math.Max(0, (LaneSum.Total(squares) / count) - (offset * offset));
        return count == 0
            ? new LevelCounts(Vector256.Sum(measurable), 0, 0, double.NaN, double.NaN, magnitude)
            : new LevelCounts(Vector256.Sum(measurable), count, Vector256.Sum(saturated), origin + offset, Math.Sqrt(variance), magnitude);
    }

    private static float FirstLevel(GrayImage image, PixelMask mask)
    {
        for (int i = 0; i < mask.Values.Length; i++)
        {
            float level = image[i % image.Width, i / image.Width];
            if (mask.Values[i] != 0 && float.IsFinite(level))
                return level;
        }

        return 0;
    }
}
