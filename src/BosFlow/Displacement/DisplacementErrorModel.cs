namespace BosFlow.Displacement;

/// <summary>The error of a displacement before it is measured.</summary>
/// <remarks>
/// Bound: b^2 = s^2 / (n E), n dots in the window (for a quadratic shape, in one that has its noise: <see cref="ShapeKernel"/>) with the gradient energy E each (<see cref="PatternSpectrum"/>), s^2 = (noise^2 + rounding^2) (1 + 1 / reference frames); source: D. Robinson and
/// P. Milanfar 2004, IEEE Trans. Image Process. 13:1185 (form from memory). The true error is sigma^2 = q ((1.03 b)^2 + (0.83 r)^2) + w^2, q what the
/// passes add to the noise of one step (<see cref="IterationNoise"/>), r^2 = residual / (n E^2 / E) what
/// interpolation leaves by the same sums, w what stays of its bias, a wave of the fraction of a pixel (<see cref="KnownBias"/>). Both factors are the engine's, measured on rendered discs of 2 to 5 px, noise of 0 to 5 %, coverage 0.1 to
/// 0.45, windows of 16 to 64 px (docs/theory.md). The sigma that it states is q ((1.01 b)^2 + (0.92 r)^2) + w^2.
/// Not in it: compression, flicker, the blur that a flow adds, motion of the camera left over by the registration. For discs above 5 px and for coverage above 0.45 nothing was measured.
/// </remarks>
public static class DisplacementErrorModel
{
    // Rounding to 8 bits as a share of full scale: 1 / (255 sqrt(12)).
    private const double Rounding = 0.001132;
    private const double NoiseFactor = 1.0293;
    private const double ResidualFactor = 0.8346;
    private const double StatedNoiseFactor = 1.01;
    private const double StatedResidualFactor = 0.92;

    /// <summary>The expected error of one component of a vector in one frame.</summary>
    /// <param name="pattern">The pattern and its noise.</param>
    /// <param name="settings">Settings of the engine.</param>
    public static ExpectedError Of(ExpectedPattern pattern, DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        ArgumentNullException.ThrowIfNull(settings);
        PatternSpectrum spectrum = PatternSpectrum.Of(pattern.DiscPixels, pattern.BlurPixels, pattern.Coverage, settings.Interpolation);
        double pixels = EffectivePixels(settings) / ShapeKernel.Variance(settings), dots = pattern.DotsPerPixel * pixels;
        double variance = ((pattern.Noise * pattern.Noise) + (Rounding * Rounding)) * (1 + (1.0 / pattern.ReferenceFrames));
        double bound = Math.Sqrt(variance / (dots * spectrum.Energy)) / pattern.Contrast;
        // Residuals and gradients both go as the contrast, so that it cancels.
        double residual = Math.Sqrt(spectrum.Residual / spectrum.Energy / pixels);
        double bias = KnownBias.Rest(settings, pattern.ImagePixels) / Math.Sqrt(2);
        double iteration = Math.Sqrt(IterationNoise.OfClearGradients(settings));
        return new ExpectedError
        {
            Bound = bound,
            Noise = NoiseFactor * iteration * bound,
            InterpolationNoise = ResidualFactor * iteration * residual,
            InterpolationBias = bias,
            Stated = Math.Sqrt(Square(StatedNoiseFactor * iteration * bound) + Square(StatedResidualFactor * iteration * residual) + (bias * bias)),
        };
    }

    private static double Square(double x) => x * x;

    /// <summary>Number of pixels of a window that count fully: (sum w)^2 / sum w^2, 1024 for the top hat of 32 px.</summary>
    private static double EffectivePixels(DisplacementSettings settings)
    {
        if (settings.Weighting == WindowWeighting.TopHat)
            return settings.WindowPixels * settings.WindowPixels;
        double[] weights = WindowOverlap.Weights(settings.WindowPixels, settings.Weighting);
        double sum = weights.Sum();
        double side = sum * sum / weights.Sum(w => w * w);
        return side * side;
    }
}
