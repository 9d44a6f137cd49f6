namespace BosFlow.Displacement;

/// <summary>One pass with image deformation: what remains between the deformed frame and the reference, window by window.</summary>
internal interface IRefinementPass
{
    /// <summary>Measures every node and puts displacement beyond the motion, sigma, correlation and flags into the state.</summary>
    void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken);
}
