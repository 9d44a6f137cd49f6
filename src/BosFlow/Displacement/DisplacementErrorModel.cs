namespace BosFlow.Displacement;

/// <summary>The error of a displacement before it is measured.</summary>
/// <remarks>
/// sigma^2 = (a b)^2 + i^2: b the Cramer-Rao bound, a what the engine makes of it, i the error of interpolation. b^2 = s^2 / (n E) for n dots in the window with the gradient
/// energy E each (<see cref="DotGradientEnergy"/>), s^2 = noise^2 (1 + 1 / reference frames) + rounding^2; source of the bound: D. Robinson and P. Milanfar 2004,
/// IEEE Trans. Image Process. 13:1185 (form from memory).
/// </remarks>
public static class DisplacementErrorModel
{
    // Rounding to 8 bits as a share of full scale: 1 / (255 sqrt(12)).
    private const double Rounding = 0.001132;
    private const double Efficiency = 1.1;

    /// <summary>The expected error of one component of a vector in one frame.</summary>
    /// <param name="pattern">The pattern and its noise.</param>
    /// <param name="settings">Settings of the engine.</param>
    public static ExpectedError Of(ExpectedPattern pattern, DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        ArgumentNullException.ThrowIfNull(settings);
        double[] weights = WindowOverlap.Weights(settings.WindowPixels, settings.Weighting);
        double sum = weights.Sum();
        double pixels = sum * sum / weights.Sum(w => w * w);
        double energy = DotGradientEnergy.PerDot(pattern.DiscPixels, pattern.BlurPixels) * pattern.DotsPerPixel * pixels * pixels * pattern.Contrast * pattern.Contrast;
        double share = 1 + (1.0 / pattern.ReferenceFrames);
        double variance = ((pattern.Noise * pattern.Noise) + (Rounding * Rounding)) * share;
        double bound = Math.Sqrt(variance / energy);
        return new ExpectedError(bound, Efficiency * bound, InterpolationBias.Pixels(settings.Interpolation));
    }
}
