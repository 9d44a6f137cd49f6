namespace BosFlow.Displacement;

/// <summary>A pass over sums of blocks in which windows have half the side where <see cref="WindowSelection"/> finds that better. The picture is deformed and summed once for both sides.</summary>
internal sealed class AdaptivePass : IRefinementPass
{
    private const int RowsPerPart = 16;

    private readonly int nodeRows;
    private readonly BlockPass whole;
    private readonly HalfMatch narrow;
    private readonly WindowSelection selection;

    public AdaptivePass(ReferenceTexture texture, ReferenceWindows windows, BlockReference reference, HalfWindows half, ShapeSolver? shape, double squaredBias)
    {
        nodeRows = windows.Layout.Grid.Rows;
        whole = new BlockPass(texture, windows, reference, shape);
        whole.Scatter.Half = half;
        narrow = new HalfMatch(half, reference.Layout, whole.Sums);
        selection = new WindowSelection(windows, reference.Solver, half, narrow, whole.Scatter, squaredBias);
    }

    public void Run(PreparedFrame frame, PredictorField predictor, NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        whole.Run(frame, predictor, state, threads, cancellationToken);
        if (state.Choice == WindowChoice.Whole)
        {
            state.ForgetHalves();
            return;
        }

        int parts = (nodeRows + RowsPerPart - 1) / RowsPerPart;
        threads.Run(parts, part => Compare(part * RowsPerPart, End(part), state), cancellationToken);
        float noise = selection.NoiseLevel();
        threads.Run(parts, part => selection.Choose(part * RowsPerPart, End(part), noise, predictor, state), cancellationToken);
    }

    public void RateScatter(NodeState state, FrameThreads threads, CancellationToken cancellationToken) => whole.RateScatter(state, threads, cancellationToken);

    private int End(int part) => Math.Min((part + 1) * RowsPerPart, nodeRows);

    private void Compare(int first, int end, NodeState state)
    {
        narrow.Solve(first, end);
        selection.Compare(first, end, state);
    }
}
