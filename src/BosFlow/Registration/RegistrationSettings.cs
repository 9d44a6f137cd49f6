namespace BosFlow.Registration;

/// <summary>How the motion of camera and board is taken out.</summary>
public sealed record RegistrationSettings
{
    /// <summary>Motion model.</summary>
    public MotionModel Motion { get; init; } = MotionModel.Similarity;

    /// <summary>Largest shift searched for, px, at least 1.</summary>
    public int LargestShiftPixels { get; init; } = 64;
}
