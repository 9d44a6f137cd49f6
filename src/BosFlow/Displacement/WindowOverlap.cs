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
        double[] sums = Of(weights, weights, spacingPixels);
        return [.. sums.Select(sum => sum / sums[0])];
    }

    /// <summary>The same with the shape of the windows known, measured along one axis.</summary>
    /// <param name="settings">Window, weighting, shape, and the spacing that the engine has.</param>
    /// <param name="spacingPixels">Distance of neighbouring vectors, px.</param>
    /// <returns>The first entry is 1; with quadratic windows some are negative.</returns>
    /// <remarks>
    /// With w and g of <see cref="ShapeKernel"/> and R the sums of products of two of them: R_ww(d) (W + G) + (2 R_wg(d) + R_gg(d)) W over its value at 0, W = R_ww(0), G = R_gg(0) (derived).
    /// </remarks>
    public static double[] Correlation(DisplacementSettings settings, double spacingPixels)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.Shape != WindowShape.Quadratic)
            return Correlation(settings.WindowPixels, spacingPixels, settings.Weighting);
        (double[] plain, double[] beyond) = ShapeKernel.Parts(settings);
        double[] ww = Of(plain, plain, spacingPixels), wg = Of(plain, beyond, spacingPixels), gg = Of(beyond, beyond, spacingPixels);
        double At(int node) => (ww[node] * (ww[0] + gg[0])) + (((2 * wg[node]) + gg[node]) * ww[0]);
        return [.. Enumerable.Range(0, ww.Length).Select(node => At(node) / At(0))];
    }

    /// <summary>Sums of products of two rows of weights of one length, symmetrical about their middles, 0, 1, 2, ... nodes apart.</summary>
    internal static double[] Of(double[] first, double[] second, double spacingPixels)
    {
        var sums = new List<double>();
        for (int node = 0; node * spacingPixels < first.Length; node++)
            sums.Add(Overlap(first, second, (int)Math.Round(node * spacingPixels)));
        return [.. sums];
    }

    internal static double[] Weights(int side, WindowWeighting weighting)
    {
        double centre = (side - 1) / 2.0;
        double deviation = GaussianShare * side;
        return [.. Enumerable.Range(0, side).Select(i => weighting == WindowWeighting.TopHat ? 1 : Math.Exp(-0.5 * (i - centre) * (i - centre) / (deviation * deviation)))];
    }

    private static double Overlap(double[] first, double[] second, int distance)
    {
        double sum = 0;
        for (int i = 0; i + distance < first.Length; i++)
            sum += first[i] * second[i + distance];
        return sum;
    }
}
