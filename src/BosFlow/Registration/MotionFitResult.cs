namespace BosFlow.Registration;

/// <summary>A motion fitted to displacement vectors, and how well it fits them.</summary>
public sealed record MotionFitResult
{
    /// <summary>The fitted motion; the identity where the fit failed.</summary>
    public required IPictureMotion Motion { get; init; }

    /// <summary>
    /// RMS of u minus the motion over the inliers, px, with the fitted parameters counted out
    /// (divisor n - p/2 for n inliers and p parameters); NaN where there are not enough inliers.
    /// </summary>
    public required double ResidualRmsU { get; init; }

    /// <summary>RMS of v minus the motion over the inliers, px, counted as <see cref="ResidualRmsU"/>.</summary>
    public required double ResidualRmsV { get; init; }

    /// <summary>Number of vectors that took part (finite, with a weight above 0).</summary>
    public required int VectorCount { get; init; }

    /// <summary>Number of vectors within four robust standard deviations (per component) of the motion.</summary>
    public required int InlierCount { get; init; }

    /// <summary>Standard uncertainty that the fit itself leaves at any place; null where the fit failed or the model has no parameters.</summary>
    public IMotionUncertainty? Uncertainty { get; init; }

    /// <summary>One sentence that says why no motion could be fitted; null where it could.</summary>
    public string? Failure { get; init; }

    /// <summary>Share of the vectors that disagree with the motion, 0 to 1; 0 without vectors.</summary>
    public double OutlierShare => VectorCount == 0 ? 0 : 1 - ((double)InlierCount / VectorCount);

    internal static MotionFitResult Failed(int vectorCount, string failure) => new()
    {
        Motion = PlanarMotion.Identity,
        ResidualRmsU = double.NaN,
        ResidualRmsV = double.NaN,
        VectorCount = vectorCount,
        InlierCount = 0,
        Failure = failure,
    };
}
