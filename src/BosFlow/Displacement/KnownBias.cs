namespace BosFlow.Displacement;

/// <summary>What is known beforehand of the bias of interpolation: the part that is taken off every displacement, and the part that stays.</summary>
/// <param name="Amplitude">Amplitudes of the waves of the fraction of a pixel that are taken off u and v, px; 0 = nothing is.</param>
/// <param name="RestAmplitude">Amplitude of what stays, one standard deviation of it times the root of two, px.</param>
internal sealed record KnownBias((double X, double Y) Amplitude, double RestAmplitude)
{
    // Those of smaller dots, px without the pixel's width, show hardly any shape below the pixels' limit in their spectrum.
    private const double SmallestDotPixels = InterpolationBias.SmallestDotPixels;

    // Of the bias that the quintic spline has with dots of this size: rendered discs of 1.5 to 5 px and Gaussians of 2 to 4 px, apart and thrown at random, keep a root mean square of some 0.0005 px, whatever the spline (a test repeats some of them).
    private const double RestShare = 0.1;

    // Where the wave vanishes, as with large dots, this is still left, px.
    private const double LeastAmplitude = 0.0006;

    /// <summary>Whether anything is taken off.</summary>
    public bool IsTakenOff => Amplitude is not (0, 0);

    /// <summary>Amplitude of what stays with dots of a size, px: least squares take the rest off where the dots are not too small.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="dotPixels">e^-2 diameter of a dot's image without the pixel's width, px; NaN = not known.</param>
    public static double Rest(DisplacementSettings settings, double dotPixels) =>
        settings.SubPixel == SubPixelMethod.LeastSquares && dotPixels >= SmallestDotPixels
            ? Math.Max(LeastAmplitude, RestShare * InterpolationBias.Amplitude(InterpolationOrder.Quintic, dotPixels))
            : InterpolationBias.Amplitude(settings.Interpolation, dotPixels);

    /// <summary>For a reference and settings.</summary>
    /// <param name="sampling">What its spectra say; null where nothing.</param>
    /// <param name="dotPixels">e^-2 diameter of its dots as they appear, px; NaN = not known.</param>
    /// <param name="settings">Settings.</param>
    /// <param name="isMeasured">Whether the bias is measured in every frame and taken off there (<see cref="InterpolationCorrection"/>).</param>
    public static KnownBias Of(ReferenceSampling? sampling, double dotPixels, DisplacementSettings settings, bool isMeasured)
    {
        if (isMeasured)
            return new KnownBias((0, 0), 0);
        double usual = ApparentDot.WithoutPixel(dotPixels);
        if (sampling is null || settings.SubPixel != SubPixelMethod.LeastSquares || !(Math.Min(sampling.DotPixels.X, sampling.DotPixels.Y) >= SmallestDotPixels))
            return new KnownBias((0, 0), InterpolationBias.Amplitude(settings.Interpolation, usual));
        return new KnownBias(sampling.Bias(settings.Interpolation), Rest(settings, Math.Max(SmallestDotPixels, usual)));
    }
}
