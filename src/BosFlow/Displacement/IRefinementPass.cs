namespace BosFlow.Displacement;

/// <summary>One pass with image deformation: what remains between the deformed frame and the reference, window by window.</summary>
internal interface IRefinementPass
{
    /// <summary>Measures every node and puts displacement beyond the motion, sigma, correlation and flags into the state.</summary>
    void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken);

    /// <summary>After the last pass: how residuals scatter from block to block, and how far blocks have moved since the frame was read, into the state; passes that do not sum by blocks leave 1.</summary>
    void RateScatter(NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        state.ScatterU.AsSpan().Fill(1);
        state.ScatterV.AsSpan().Fill(1);
    }
}
