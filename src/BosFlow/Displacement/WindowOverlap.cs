namespace BosFlow.Displacement;

/// <summary>How the errors of neighbouring vectors hang together because their windows overlap.</summary>
public static class WindowOverlap
{
    // The Gaussian window's standard deviation over its side (see WindowWeighting.Gaussian).
    private const double GaussianShare = 0.25;

    /// <summary>Correlation of the errors of two vectors that are 0, 1, 2, ... nodes apart along one axis; cut where the windows no longer overlap.</summary>
    /// <param name="windowPixels">Side of the window, px.</param>
    /// <param name="spacingPixels">Distance of neighbouring vectors, px.</param>
    /// <param name="weighting">Weight within the window.</param>
    /// <returns>The first entry is 1.</returns>
    /// <remarks>
    /// A vector is a weighted mean of independent errors of pixels with the window w as weight, so that the correlation at distance d is
    /// sum w(x) w(x + d) / sum w(x)^2: a triangle for the top-hat window (derived).
    /// </remarks>
    public static double[] Correlation(int windowPixels, double spacingPixels, WindowWeighting weighting)
    {
        double[] weights = Weights(windowPixels, weighting);
        double own = Overlap(weights, 0);
        var correlation = new List<double> { 1 };
        for (int node = 1; node * spacingPixels < windowPixels; node++)
            correlation.Add(Overlap(weights, (int)Math.Round(node * spacingPixels)) / own);
        return [.. correlation];
    }

    internal static double[] Weights(int side, WindowWeighting weighting)
    {
        double centre = (side - 1) / 2.0;
        double deviation = GaussianShare * side;
        return [.. Enumerable.Range(0, side).Select(i => weighting == WindowWeighting.TopHat ? 1 : Math.Exp(-0.5 * (i - centre) * (i - centre) / (deviation * deviation)))];
    }

    private static double Overlap(double[] weights, int distance)
    {
        double sum = 0;
        for (int i = 0; i + distance < weights.Length; i++)
            sum += weights[i] * weights[i + distance];
        return sum;
    }
}
