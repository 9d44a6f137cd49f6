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
        double sum = 0;
        double largest = 0;
        ReadOnlySpan<float> pixels = image.Pixels;
        ReadOnlySpan<byte> values = mask.Values;
        for (int i = 0; i < pixels.Length; i++)
        {
            if (values[i] == 0)
                continue;
            measurable++;
            float level = pixels[i];
            if (float.IsNaN(level))
                continue;
            valid++;
            sum += level;
            largest = Math.Max(largest, Math.Abs(level));
            // False where the white level is NaN.
            if (level >= image.WhiteLevel)
                saturated++;
        }

        double mean = valid > 0 ? sum / valid : double.NaN;
        return new LevelCounts(measurable, valid, saturated, mean, Deviation(image, mask, mean, valid), largest);
    }

    // A second pass about the mean: sum of squares minus square of sums would lose the digits of a weak contrast.
    private static double Deviation(GrayImage image, PixelMask mask, double mean, long valid)
    {
        double squares = 0;
        ReadOnlySpan<float> pixels = image.Pixels;
        ReadOnlySpan<byte> values = mask.Values;
        for (int i = 0; i < pixels.Length; i++)
        {
            double difference = pixels[i] - mean;
            if (values[i] != 0 && !double.IsNaN(difference))
                squares += difference * difference;
        }

        return valid > 0 ? Math.Sqrt(squares / valid) : double.NaN;
    }
}
