namespace BosFlow.Displacement;

/// <summary>How frames are matched with a reference.</summary>
internal sealed record MatchConditions
{
    /// <summary>Number of frames that were combined in the reference.</summary>
    public int Frames { get; init; } = 1;

    /// <summary>Spline that moves a frame back.</summary>
    public InterpolationOrder Interpolation { get; init; } = InterpolationOrder.Quintic;

    /// <summary>Whether what interpolation makes of the pattern is measured in every frame and taken off (<see cref="InterpolationCorrection"/>).</summary>
    public bool IsMeasured { get; init; }
}
