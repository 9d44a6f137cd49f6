using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>The exchangeable stages of a run: each is made once and then serves every frame.</summary>
public sealed record RunStages
{
    /// <summary>The stages of this program.</summary>
    public static RunStages Standard { get; } = new()
    {
        BuildReference = (request, region, cancellationToken) =>
            new ReferenceBuilder(request.Case.Registration with { Lens = request.Case.Lens is { } lens ? new LensModel(lens) : null }, request.Case.Reference.Combine, request.Options.Threads)
                .Build(request.Reference, region, cancellationToken),
        CreateEstimator = MotionEstimators.Of,
        PlanGrid = DisplacementEngine.GridOf,
        CreateEngine = (reference, measurable, settings) => new EngineStage(new DisplacementEngine(reference.Image, measurable, settings, reference.Underlying, reference.FrameCount)),
    };

    /// <summary>Combines the frames of a source to the reference picture.</summary>
    public required Func<RunRequest, RegionMask, CancellationToken, Reference> BuildReference { get; init; }

    /// <summary>Makes the motion estimator of a reference: picture, undisturbed pixels, settings.</summary>
    public required Func<GrayImage, PixelMask, RegistrationSettings, IMotionEstimator> CreateEstimator { get; init; }

    /// <summary>The grid that the engine will measure on: width and height of the picture in px, settings.</summary>
    public required Func<int, int, DisplacementSettings, NodeGrid> PlanGrid { get; init; }

    /// <summary>Makes the displacement engine of a reference: the reference, measurable pixels, settings.</summary>
    public required Func<Reference, PixelMask, DisplacementSettings, IDisplacementStage> CreateEngine { get; init; }
}
