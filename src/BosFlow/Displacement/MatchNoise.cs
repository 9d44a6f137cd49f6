namespace BosFlow.Displacement;

/// <summary>What disturbs a match of a reference with one frame.</summary>
/// <param name="Reference">Variance of the reference's noise, DN^2.</param>
/// <param name="Frame">Variance of a frame's noise, DN^2.</param>
/// <param name="Interpolation">Spline that moves the frame back; null where what it does to the pattern is taken off.</param>
internal sealed record MatchNoise(double Reference, double Frame, InterpolationOrder? Interpolation)
{
    // Of white, one standard deviation: no wave is left out as if frames were clearer than this. The spectrum of a reference tells little noise badly, since sharp discs have waves at the pixels' limit too, and that of compressed video hides among the longer waves. Judgement: with 0.4 % boards of discs lost up to a half.
    private const double LeastShareOfWhite = 0.02;

    /// <summary>For a reference.</summary>
    /// <param name="reference">Variance of its noise, DN^2.</param>
    /// <param name="whiteLevel">Grey level of white, DN; infinite = not known.</param>
    /// <param name="conditions">How frames are matched with it; it has the noise of a mean of its frames.</param>
    public static MatchNoise Of(double reference, double whiteLevel, MatchConditions conditions) =>
        new(reference, Math.Max(conditions.Frames * reference, double.IsFinite(whiteLevel) ? Math.Pow(LeastShareOfWhite * whiteLevel, 2) : 0), conditions.IsMeasured ? null : conditions.Interpolation);
}
