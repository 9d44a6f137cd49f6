using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>What the run asks of a displacement engine that holds one reference. Safe to call from several threads.</summary>
public interface IDisplacementStage
{
    /// <summary>The nodes it measures.</summary>
    NodeGrid Grid { get; }

    /// <summary>The dots of the reference, and what interpolation makes of displacements for them.</summary>
    SamplingFacts Sampling { get; }

    /// <summary>Measures one frame.</summary>
    /// <param name="frame">The frame, of the size and in the grey levels of the reference.</param>
    /// <param name="predictor">Where to start looking.</param>
    /// <param name="cancellationToken">Stops the measurement.</param>
    /// <returns>Total displacement, motion of the background included.</returns>
    VectorField Measure(GrayImage frame, IPictureMotion predictor, CancellationToken cancellationToken);

    /// <summary>Takes a result back that nobody reads any more; a later one may stand in its memory.</summary>
    /// <param name="field">The field; not used by the caller from now on.</param>
    void Reuse(VectorField field);
}
