namespace BosFlow.Triage;

/// <summary>Counts dots as local extremes of the smoothed grey levels.</summary>
internal static class DotCount
{
    // A dot rises above a third of the way from the ground to the brightest, and above the noise left by the smoothing (3/8 of it) by four times; judgement.
    private const double Rise = 0.35;
    private const double SmoothedNoise = 0.375;
    private const double NoiseTimes = 4;

    /// <summary>Number of dots, about: dots that overlap count as one.</summary>
    /// <param name="levels">Grey levels minus their mean, row-major.</param>
    /// <param name="size">Side of the tile, px.</param>
    /// <param name="sorted">Grey levels, ascending, with their mean.</param>
    /// <param name="mean">That mean.</param>
    /// <param name="noise">Noise of a pixel, same unit.</param>
    public static int Of(float[] levels, int size, float[] sorted, double mean, double noise)
    {
        double low = sorted[sorted.Length / 200] - mean, high = sorted[^(sorted.Length / 200)] - mean;
        double middle = sorted[sorted.Length / 2] - mean;
        // Light dots on dark ground: the ground is the common level, so that the median lies nearer to the dark end.
        bool light = high - middle >= middle - low;
        double ground = (light ? sorted[sorted.Length / 5] : sorted[sorted.Length * 4 / 5]) - mean;
        double threshold = Math.Max(Rise * Math.Abs((light ? high : low) - ground), NoiseTimes * SmoothedNoise * noise);
        float[] smooth = Smoothed(levels, size, light ? 1 : -1, (float)ground);
        int count = 0;
        for (int y = 2; y < size - 2; y++)
        {
            for (int x = 2; x < size - 2; x++)
            {
                if (smooth[(y * size) + x] > threshold && IsPeak(smooth, (y * size) + x, size))
                    count++;
            }
        }

        // The border of two pixels has its share of dots too.
        return (int)Math.Round(count * (double)size * size / ((size - 4) * (size - 4)));
    }

    private static bool IsPeak(float[] smooth, int at, int size)
    {
        float here = smooth[at];
        return here > smooth[at - 1] && here >= smooth[at + 1] && here > smooth[at - size] && here >= smooth[at + size]
            && here > smooth[at - size - 1] && here > smooth[at - size + 1] && here >= smooth[at + size - 1] && here >= smooth[at + size + 1];
    }

    // Binomial weights 1 2 1 in both directions.
    private static float[] Smoothed(float[] levels, int size, float sign, float ground)
    {
        float[] smooth = new float[levels.Length];
        for (int y = 1; y < size - 1; y++)
        {
            for (int x = 1; x < size - 1; x++)
            {
                int i = (y * size) + x;
                float sum = 4 * levels[i];
                sum += 2 * (levels[i - 1] + levels[i + 1] + levels[i - size] + levels[i + size]);
                sum += levels[i - size - 1] + levels[i - size + 1] + levels[i + size - 1] + levels[i + size + 1];
                smooth[i] = sign * ((sum / 16) - ground);
            }
        }

        return smooth;
    }
}
