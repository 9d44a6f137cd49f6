namespace BosFlow.Displacement;

/// <summary>One pass with image deformation: what remains between the deformed frame and the reference, window by window.</summary>
internal interface IRefinementPass
{
    /// <summary>Measures every node and puts displacement beyond the motion, sigma, correlation and flags into the state.</summary>
    void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken);

    /// <summary>Factor by which windows scatter more than independent pixels, since neighbours share noise (<see cref="SharedNoise"/>).</summary>
    float SharedScatter => 1;

    /// <summary>After the last pass: how residuals scatter from block to block, and how far blocks have moved since the frame was read, into the state; passes that do not sum by blocks know what neighbouring pixels share.</summary>
    void RateScatter(NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        state.ScatterU.AsSpan().Fill(SharedScatter);
        state.ScatterV.AsSpan().Fill(SharedScatter);
    }
}
