namespace BosFlow.Displacement;

/// <summary>Systematic error that interpolation between pixels leaves in a displacement, and that no residual shows: a wave of the fraction of a pixel.</summary>
public static class InterpolationBias
{
    /// <summary>Diameter for which the bias is stated where a picture does not show that of its dots, px.</summary>
    public const double UsualDotPixels = 3;

    /// <summary>Smaller dots are counted as this, px: below, the wave depends on the shape of a dot so much that only a warning is true (<see cref="PeakLocking"/>).</summary>
    public const double SmallestDotPixels = 1.8;

    // A disc far smaller than its blur is a Gaussian; alone on the picture it keeps no distance to others.
    private const double PointPixels = 0.3;
    private const double Sparse = 0.02;

    // Discs, blurred discs and Gaussians of one diameter scatter about the Gaussian as if their diameters did by this share.
    private const double ShapeSpread = 0.1;

    private const double TableStep = 0.1;
    private const int TableLength = 141;
    private static readonly double[] Cubic = Table(InterpolationOrder.Cubic);
    private static readonly double[] Quintic = Table(InterpolationOrder.Quintic);

    /// <summary>Amplitude of the wave for dots of a given size: root mean square over diameters 10 % smaller to 10 % larger, since it depends on the shape of a dot too.</summary>
    /// <param name="order">Interpolation used.</param>
    /// <param name="dotPixels">e^-2 diameter of a dot's image without the pixel's own width, px; NaN = not known.</param>
    /// <returns>px, 0 or more. <see cref="PatternSpectrum.BiasAmplitude"/> is that of one shape.</returns>
    public static double Amplitude(InterpolationOrder order, double dotPixels)
    {
        double diameter = double.IsNaN(dotPixels) ? UsualDotPixels : Math.Max(dotPixels, SmallestDotPixels);
        double[] table = order == InterpolationOrder.Cubic ? Cubic : Quintic;
        double squares = 0;
        foreach (double share in (ReadOnlySpan<double>)[1 - ShapeSpread, 1, 1 + ShapeSpread])
        {
            double amplitude = OfGaussian(table, share * diameter);
            squares += amplitude * amplitude / 3;
        }

        return Math.Sqrt(squares);
    }

    /// <summary>The same as a standard deviation over all fractions of a pixel: amplitude over the root of two, px.</summary>
    /// <param name="order">Interpolation used.</param>
    /// <param name="dotPixels">e^-2 diameter of a dot's image without the pixel's own width, px; NaN = not known.</param>
    public static double Pixels(InterpolationOrder order, double dotPixels) => Amplitude(order, dotPixels) / Math.Sqrt(2);

    private static double OfGaussian(double[] table, double diameter)
    {
        double place = Math.Clamp(diameter / TableStep, 4, TableLength - 1);
        int before = Math.Min((int)place, TableLength - 2);
        return table[before] + ((table[before + 1] - table[before]) * (place - before));
    }

    private static double[] Table(InterpolationOrder order) =>
        [.. Enumerable.Range(0, TableLength).Select(i => i == 0 ? 0 : PatternSpectrum.Of(PointPixels, i * TableStep, Sparse, order).BiasAmplitude)];
}
