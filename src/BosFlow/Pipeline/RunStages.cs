using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>The exchangeable stages of a run: each is made once and then serves every frame.</summary>
public sealed record RunStages
{
    /// <summary>Combines the frames of a source to the reference picture.</summary>
    public required Func<RunRequest, RegionMask, CancellationToken, Reference> BuildReference { get; init; }

    /// <summary>Makes the motion estimator of a reference: picture, undisturbed pixels, settings.</summary>
    public required Func<GrayImage, PixelMask, RegistrationSettings, IMotionEstimator> CreateEstimator { get; init; }

    /// <summary>Makes the displacement engine of a reference: picture, measurable pixels, settings.</summary>
    public required Func<GrayImage, PixelMask, DisplacementSettings, IDisplacementStage> CreateEngine { get; init; }
}
