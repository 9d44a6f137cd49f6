using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>
/// Renders Gaussian dots, each integrated exactly over the square pixel: a dot of contrast c at (x, y) adds to pixel (i, j)
/// c pi sigma^2 / 2 [erf((i + 1/2 - x) / (sigma sqrt 2)) - erf((i - 1/2 - x) / (sigma sqrt 2))] times the same in y.
/// </summary>
public static class DotRenderer
{
    // Beyond 5.5 standard deviations a dot adds less than 1e-7 of its peak.
    private const double ReachInSigmas = 5.5;

    /// <summary>Renders the sum of all dots.</summary>
    /// <param name="dots">Dots at the places where they are to appear, px; those out of sight cost nothing.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="sigma">Standard deviation of a dot, px, greater than 0.</param>
    /// <param name="background">Level without dots, in units of contrast.</param>
    /// <param name="cancellationToken">Stops between two bands of rows.</param>
    /// <returns>Row-major levels, width * height. The same bits whatever the number of threads: every pixel adds its dots in their order.</returns>
    public static float[] Render(ReadOnlySpan<Dot> dots, int width, int height, double sigma, double background, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sigma);
        float[] levels = new float[checked(width * height)];
        Array.Fill(levels, (float)background);
        double reach = (ReachInSigmas * sigma) + 0.5;
        List<Dot>[] bands = DotBands.Sort(dots, width, height, reach);
        Parallel.For(0, bands.Length, new ParallelOptions { CancellationToken = cancellationToken }, band =>
        {
            int firstRow = band * DotBands.Rows;
            int endRow = Math.Min(height, firstRow + DotBands.Rows);
            var profileX = new float[(2 * (int)Math.Ceiling(reach)) + 3];
            foreach (Dot dot in bands[band])
                Add(levels, width, firstRow, endRow, dot, sigma, reach, profileX);
        });
        return levels;
    }

    private static void Add(float[] levels, int width, int firstRow, int endRow, in Dot dot, double sigma, double reach, float[] profileX)
    {
        int left = Math.Max(0, (int)Math.Floor(dot.X - reach));
        int right = Math.Min(width - 1, (int)Math.Ceiling(dot.X + reach));
        int top = Math.Max(firstRow, (int)Math.Floor(dot.Y - reach));
        int bottom = Math.Min(endRow - 1, (int)Math.Ceiling(dot.Y + reach));
        if (right < left || bottom < top)
            return;
        Span<float> profile = profileX.AsSpan(0, right - left + 1);
        Profile(profile, left - dot.X, sigma);
        double perSigma = 1 / (sigma * Math.Sqrt(2));
        double factor = dot.Contrast * Math.PI * sigma * sigma / 2;
        double below = ErrorFunction.Value((top - 0.5 - dot.Y) * perSigma);
        for (int row = top; row <= bottom; row++)
        {
            double above = ErrorFunction.Value((row + 0.5 - dot.Y) * perSigma);
            float weight = (float)(factor * (above - below));
            below = above;
            Span<float> target = levels.AsSpan((row * width) + left, profile.Length);
            for (int i = 0; i < profile.Length; i++)
                target[i] += weight * profile[i];
        }
    }

    private static void Profile(Span<float> profile, double firstDistance, double sigma)
    {
        double perSigma = 1 / (sigma * Math.Sqrt(2));
        double below = ErrorFunction.Value((firstDistance - 0.5) * perSigma);
        for (int i = 0; i < profile.Length; i++)
        {
            double above = ErrorFunction.Value((firstDistance + i + 0.5) * perSigma);
            profile[i] = (float)(above - below);
            below = above;
        }
    }
}
