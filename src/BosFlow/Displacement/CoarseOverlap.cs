namespace BosFlow.Displacement;

/// <summary>How far neighbouring windows of the coarse pass overlap.</summary>
public enum CoarseOverlap
{
    /// <summary>By half of their side.</summary>
    Half,

    /// <summary>By a quarter of it: fewer windows, a tenth less time where the passes are few.</summary>
    Quarter,
}
