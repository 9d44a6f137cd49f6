using BosFlow.Footage;

namespace BosFlow.Displacement;

/// <summary>How finely a reference is sampled and how noisy it is, from its spectra along both axes, and what follows from it: weights of the waves, bias of interpolation.</summary>
internal sealed class ReferenceSampling
{
    private readonly AxisPower powerX;
    private readonly AxisPower powerY;
    private readonly SampledPattern patternX;
    private readonly SampledPattern patternY;

    private ReferenceSampling(AxisPower powerX, AxisPower powerY, SampledPattern patternX, SampledPattern patternY, double whiteLevel, MatchConditions conditions)
    {
        (this.powerX, this.powerY, this.patternX, this.patternY) = (powerX, powerY, patternX, patternY);
        Filter = GradientFilter.Of(patternX, patternY, MatchNoise.Of(Noise, whiteLevel, conditions));
        // A pattern that is not of dots is told badly by their spectrum.
        double whiteNoise = Math.Min(Noise, Math.Min(powerX.Least, powerY.Least));
        Levels = LevelFilter.Of(patternX, patternY, whiteNoise);
        double interpolated = Enumerable.Range(0, WaveWeights.Count).Average(k => WaveWeights.NoisePower(conditions.Interpolation, WaveWeights.Frequency(k)));
        ResidualNoise = (conditions.Frames * interpolated * interpolated) + Levels.NoiseGain;
        Shared = SharedNoise.Of(patternX, patternY, Filter, Levels, whiteNoise, conditions);
    }

    /// <summary>Filter of the derivatives.</summary>
    public GradientFilter Filter { get; }

    /// <summary>Filter of the grey levels.</summary>
    public LevelFilter Levels { get; }

    /// <summary>What neighbouring pixels share of the noise.</summary>
    public SharedNoise Shared { get; }

    /// <summary>Variance of a residual's noise over that of the reference's: n i + l for a reference of n frames, i what interpolation leaves of a frame's noise and l the filter of that in grey levels.</summary>
    public double ResidualNoise { get; }

    /// <summary>Variance of the reference's noise, DN^2.</summary>
    public double Noise => (patternX.Noise + patternY.Noise) / 2;

    /// <summary>e^-2 diameter of a dot's image without the pixel's own width, px, along both axes.</summary>
    public (double X, double Y) DotPixels => (patternX.Dot.DiameterPixels, patternY.Dot.DiameterPixels);

    /// <summary>Looks at a picture; null where it shows no pattern.</summary>
    /// <param name="image">The reference.</param>
    /// <param name="measurable">Pixels that may be used.</param>
    /// <param name="conditions">How frames are matched with it.</param>
    public static ReferenceSampling? Of(GrayImage image, PixelMask measurable, MatchConditions conditions)
    {
        if (AxisPower.Of(image, measurable, isDown: false) is not { } powerX || AxisPower.Of(image, measurable, isDown: true) is not { } powerY)
            return null;
        return SampledPattern.Fit(powerX, powerY) is { } patterns ? new ReferenceSampling(powerX, powerY, patterns.X, patterns.Y, image.WhiteLevel, conditions) : null;
    }

    /// <summary>Amplitude of the bias of interpolation along x and y, px (<see cref="AxisBias"/>).</summary>
    public (double X, double Y) Bias(InterpolationOrder order) => (AxisBias.Amplitude(powerX, patternX, Filter.AlongX, order), AxisBias.Amplitude(powerY, patternY, Filter.AlongY, order));
}
