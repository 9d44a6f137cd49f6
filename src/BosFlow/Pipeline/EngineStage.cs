using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>The correlation engine as a stage of a run.</summary>
internal sealed class EngineStage(DisplacementEngine engine) : IDisplacementStage
{
    public NodeGrid Grid => engine.Grid;

    public SamplingFacts Sampling => engine.Sampling;

    public VectorField Measure(GrayImage frame, IPictureMotion predictor, CancellationToken cancellationToken) =>
        engine.Measure(frame, predictor, cancellationToken);

    public void Reuse(VectorField field) => engine.Reuse(field);
}
