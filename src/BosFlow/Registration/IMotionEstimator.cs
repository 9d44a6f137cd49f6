using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Finds the motion of the background between one reference and many frames. Safe to call from several threads.</summary>
public interface IMotionEstimator
{
    /// <summary>Why the reference offers no place to estimate a motion from, one sentence; null where it does. Frames then start from no motion.</summary>
    string? Unusable { get; }

    /// <summary>Estimates the motion of one frame.</summary>
    /// <param name="frame">The frame, of the size and in the grey levels of the reference.</param>
    /// <param name="cancellationToken">Stops the estimate.</param>
    MotionEstimate Estimate(GrayImage frame, CancellationToken cancellationToken);
}
