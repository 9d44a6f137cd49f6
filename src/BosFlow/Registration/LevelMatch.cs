namespace BosFlow.Registration;

/// <summary>How the grey levels of two pictures of one scene compare.</summary>
internal static class LevelMatch
{
    /// <summary>Gain and offset with which the second picture has mean and standard deviation of the first: noise, alike in both, does not bend them as a regression would be.</summary>
    /// <param name="picture">Grey levels; NaN = not known.</param>
    /// <param name="reference">Grey levels of the same points; NaN = not known.</param>
    /// <returns>picture = gain * reference + offset; (1, 0) where nothing is known of either.</returns>
    public static (double Gain, double Offset) Of(ReadOnlySpan<float> picture, ReadOnlySpan<float> reference)
    {
        double sum = 0, referenceSum = 0, squares = 0, referenceSquares = 0;
        long count = 0;
        for (int i = 0; i < picture.Length; i++)
        {
            if (float.IsNaN(picture[i]) || float.IsNaN(reference[i]))
                continue;
            (double a, double b) = (picture[i], reference[i]);
            sum += a;
            referenceSum += b;
            squares += a * a;
            referenceSquares += b * b;
            count++;
        }

        double variance = squares - (sum * sum / count), referenceVariance = referenceSquares - (referenceSum * referenceSum / count);
        if (!(variance > 0) || !(referenceVariance > 0))
            return (1, 0);
        double gain = Math.Sqrt(variance / referenceVariance);
        return (gain, (sum - (gain * referenceSum)) / count);
    }
}
