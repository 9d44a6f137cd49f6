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
        (this.powerX, this.powerY, this.patternX, this.patternY, Frames) = (powerX, powerY, patternX, patternY, conditions.Frames);
        Filter = GradientFilter.Of(patternX, patternY, MatchNoise.Of(Noise, whiteLevel, conditions));
        Levels = LevelFilter.Of(patternX, patternY, Noise);
        Shared = SharedNoise.Of(patternX, patternY, Filter, Noise, conditions);
    }

    /// <summary>Filter of the derivatives.</summary>
    public GradientFilter Filter { get; }

    /// <summary>Filter of the grey levels.</summary>
    public LevelFilter Levels { get; }

    /// <summary>What neighbouring pixels share of the noise.</summary>
    public SharedNoise Shared { get; }

    /// <summary>Number of frames that were combined in the reference.</summary>
    public int Frames { get; }

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
