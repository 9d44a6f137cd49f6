namespace BosFlow.Statistics;

/// <summary>What the errors of all frames have in common, because all are measured against the same reference by the same engine.</summary>
/// <param name="VarianceShare">Share of each vector's variance that comes from the reference's noise, 0 to 1.</param>
/// <param name="BiasPixels">Amplitude of the systematic error of the engine, px, a wave of the fraction of a pixel. Neighbours share their fractions, and shake spreads it over the frames, so that taking it as common is the cautious choice.</param>
public sealed record CommonError(double VarianceShare, double BiasPixels)
{
    /// <summary>Nothing in common.</summary>
    public static CommonError None { get; } = new(0, 0);

    /// <summary>The common error of frames measured against a mean of several frames of the same noise.</summary>
    /// <param name="referenceFrames">Number of frames in the reference, at least 1.</param>
    /// <param name="biasPixels">Amplitude of the systematic error of the engine, px.</param>
    /// <remarks>A vector's variance is proportional to sigma^2 (1 + 1 / n); the reference's part of it is 1 / (n + 1) (derived).</remarks>
    public static CommonError Of(int referenceFrames, double biasPixels)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(referenceFrames, 1);
        return new CommonError(1.0 / (referenceFrames + 1), biasPixels);
    }
}
