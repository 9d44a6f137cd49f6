namespace BosFlow.Displacement;

/// <summary>Finds vectors that are not to be believed and puts the median of their trusted neighbours in their place. Holds the working memory of one frame.</summary>
internal sealed class OutlierTest(NodeGrid grid)
{
    private const int RowsPerPart = 16;

    private readonly bool[] trusted = new bool[grid.Count];
    private readonly bool[] outliers = new bool[grid.Count];
    private readonly NeighbourScreen screen = new(grid);

    /// <summary>For the predictor of the next pass: outliers and every flagged vector are replaced, by NaN where too few neighbours are trusted.</summary>
    public void ForSteering(NodeState state, double threshold, double noise, FrameThreads threads, CancellationToken cancellationToken)
    {
        Judge(state, threshold, noise, threads, cancellationToken);
        threads.Run(Parts, ReplaceRows, cancellationToken);

        // Reads trusted neighbours alone, which stay as they are.
        void ReplaceRows(int part)
        {
            for (int node = First(part); node < First(part + 1); node++)
            {
                if (!trusted[node])
                    Replace(state, node, byMedian: true);
            }
        }
    }

    /// <summary>For the result: outliers alone are replaced and flagged; a vector that carries another flag keeps its value.</summary>
    public void ForResult(NodeState state, double threshold, double noise, bool byMedian, FrameThreads threads, CancellationToken cancellationToken)
    {
        Judge(state, threshold, noise, threads, cancellationToken);
        for (int node = 0; node < outliers.Length; node++)
        {
            if (!outliers[node])
                continue;
            Replace(state, node, byMedian);
            state.Flags[node] |= VectorFlags.OutlierReplaced;
        }
    }

    private void Judge(NodeState state, double threshold, double noise, FrameThreads threads, CancellationToken cancellationToken)
    {
        threads.Run(Parts, Load, cancellationToken);
        threads.Run(Parts, part => JudgeRows(part * RowsPerPart, Math.Min((part + 1) * RowsPerPart, grid.Rows), state, threshold, noise), cancellationToken);
        threads.Run(Parts, Drop, cancellationToken);

        void Load(int part)
        {
            for (int node = First(part); node < First(part + 1); node++)
                trusted[node] = state.Flags[node] == VectorFlags.None;
            screen.Load(First(part), First(part + 1), state.U, state.V, trusted);
        }
    }

    private int Parts => (grid.Rows + RowsPerPart - 1) / RowsPerPart;

    private int First(int part) => Math.Min(part * RowsPerPart, grid.Rows) * grid.Columns;

    private void Drop(int part)
    {
        for (int node = First(part); node < First(part + 1); node++)
            trusted[node] &= !outliers[node];
    }

    // Nearly all vectors pass the screen; what does not pass is tested one by one.
    private void JudgeRows(int first, int end, NodeState state, double threshold, double noise)
    {
        for (int row = first; row < end; row++)
        {
            Span<bool> found = outliers.AsSpan(row * grid.Columns, grid.Columns);
            screen.Doubtful(row, threshold, noise, found);
            for (int column = 0; column < found.Length; column++)
            {
                if (found[column])
                    found[column] = VectorValidation.IsOutlier(grid, (row * grid.Columns) + column, state.U, state.V, trusted, threshold, noise);
            }
        }
    }

    private void Replace(NodeState state, int node, bool byMedian)
    {
        bool known = VectorValidation.TryNeighbourMedian(state.Grid, node, state.U, state.V, trusted, out (float U, float V) median) && byMedian;
        state.U[node] = known ? median.U : float.NaN;
        state.V[node] = known ? median.V : float.NaN;
    }
}
