using BosFlow.Displacement;

namespace BosFlow.Pipeline;

/// <summary>The drift of the background until one stretch of flow-off frames.</summary>
/// <param name="Time">Mean time of its frames, s; their mean number where the footage has no times.</param>
/// <param name="FrameCount">Number of frames combined.</param>
/// <param name="Field">Displacement against the reference, without the motion that registration takes out; null = none, for the reference itself.</param>
internal sealed record DriftStretch(double Time, int FrameCount, VectorField? Field)
{
    /// <summary>Why the drift is not known at a node.</summary>
    public VectorFlags FlagAt(int node) => Field?.Flags[node] ?? VectorFlags.None;
}
