namespace BosFlow.Displacement;

/// <summary>The error of a displacement before it is measured.</summary>
/// <remarks>
/// Bound: b^2 = s^2 / (n E), n dots in the window with the gradient energy E each (<see cref="PatternSpectrum"/>), s^2 = (noise^2 + rounding^2) (1 + 1 / reference frames); source: D. Robinson and
/// P. Milanfar 2004, IEEE Trans. Image Process. 13:1185 (form from memory). The true error is sigma^2 = (1.11 b)^2 + (0.9 r)^2 + (1.15 B)^2 / 2 + (0.0006 px)^2, r^2 = residual / (n E^2 / E) what
/// interpolation leaves by the same sums, B the amplitude of its bias. The three factors are the engine's, measured on rendered discs of 2 to 5 px, noise of 0 to 5 %, coverage 0.1 to
/// 0.45, windows of 16 to 64 px (docs/theory.md). The sigma that it states is (1.03 b)^2 + (1.03 r)^2 + its constant for the bias.
/// Not in it: compression, flicker, the blur that a flow adds, motion of the camera left over by the registration. For discs above 5 px and for coverage above 0.45 nothing was measured.
/// </remarks>
public static class DisplacementErrorModel
{
    // Rounding to 8 bits as a share of full scale: 1 / (255 sqrt(12)).
    private const double Rounding = 0.001132;
    private const double NoiseFactor = 1.11;
    private const double ResidualFactor = 0.9;
    private const double BiasFactor = 1.15;
    private const double StatedFactor = 1.03;

    // Where the wave of the fraction of a pixel vanishes, this was still left, px.
    private const double LeastBias = 0.0006;

    /// <summary>The expected error of one component of a vector in one frame.</summary>
    /// <param name="pattern">The pattern and its noise.</param>
    /// <param name="settings">Settings of the engine.</param>
    public static ExpectedError Of(ExpectedPattern pattern, DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        ArgumentNullException.ThrowIfNull(settings);
        PatternSpectrum spectrum = PatternSpectrum.Of(pattern.DiscPixels, pattern.BlurPixels, pattern.Coverage, settings.Interpolation);
        double dots = pattern.DotsPerPixel * EffectivePixels(settings);
        double variance = ((pattern.Noise * pattern.Noise) + (Rounding * Rounding)) * (1 + (1.0 / pattern.ReferenceFrames));
        double bound = Math.Sqrt(variance / (dots * spectrum.Energy)) / pattern.Contrast;
        // Residuals and gradients both go as the contrast, so that it cancels.
        double residual = Math.Sqrt(spectrum.Residual / spectrum.Energy / EffectivePixels(settings));
        double bias = InterpolationBias.Pixels(settings.Interpolation);
        return new ExpectedError
        {
            Bound = bound,
            Noise = NoiseFactor * bound,
            InterpolationNoise = ResidualFactor * residual,
            InterpolationBias = Math.Sqrt((BiasFactor * BiasFactor * spectrum.BiasAmplitude * spectrum.BiasAmplitude / 2) + (LeastBias * LeastBias)),
            Stated = Math.Sqrt((StatedFactor * StatedFactor * ((bound * bound) + (residual * residual))) + (bias * bias)),
        };
    }

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
