namespace BosFlow.Displacement;

/// <summary>How much of the scatter of residuals from block to block the edges of the blocks make, from what groups of 2 x 2 blocks scatter in the same frame.</summary>
/// <remarks>
/// What an edge of a block cuts adds to one of its blocks what it takes from the other, so that it grows with the length of the edges, and what is independent with the area: groups have less of it. Both are compared with what the passes leave of them (<see cref="EdgeScatter"/>).
/// Working memory of one frame.
/// </remarks>
internal sealed class EdgeShare
{
    /// <summary>Blocks along the side of a group.</summary>
    public const int Side = 2;

    // Rows of groups that tell enough; more cost time.
    private const int EnoughRows = 32;

    private readonly int columns;
    private readonly int rowStep;
    private readonly EdgeScatter? scatter;
    private readonly double shared;
    private readonly double[] rows;

    /// <summary>Prepares the rows.</summary>
    /// <param name="layout">The blocks.</param>
    /// <param name="scatter">What the passes leave; null = nothing is said of edges.</param>
    /// <param name="shared">Factor for noise that neighbouring pixels share, at least 1 (<see cref="SharedNoise.Factor"/>): the most that groups can tell, and what is taken where they tell nothing.</param>
    public EdgeShare(BlockLayout layout, EdgeScatter? scatter, double shared)
    {
        this.shared = shared;
        columns = layout.Columns;
        int rated = layout.Rows / BlockScatter.RowStep;
        rowStep = Math.Max(1, rated / EnoughRows);
        rows = scatter is null ? [] : new double[((rated / rowStep) + 1) * 4];
        this.scatter = scatter;
    }

    /// <summary>Whether groups of a row are to be rated.</summary>
    /// <param name="row">Number among the rows of single blocks that are rated.</param>
    public bool Asks(int row) => row % rowStep == 0 && (row / rowStep * 4) < rows.Length;

    /// <summary>Takes what a row of blocks and of the groups that begin there scatter: found and expected for u, then for v, a row of blocks each.</summary>
    public void Tell(int row, ReadOnlySpan<float> blocks, ReadOnlySpan<float> groups)
    {
        Span<double> sums = rows.AsSpan(row / rowStep * 4, 4);
        sums.Clear();
        for (int column = 0; column < columns; column++)
        {
            // Where a group is not rated, its block does not count either.
            for (int term = 0; term < 4 && groups[column + columns] > 0; term += 2)
            {
                sums[0] += blocks[column + (term * columns)];
                sums[1] += blocks[column + ((term + 1) * columns)];
                sums[2] += groups[column + (term * columns)];
                sums[3] += groups[column + ((term + 1) * columns)];
            }
        }
    }

    /// <summary>Factor by which the scatter of single blocks is to be taken (<see cref="EdgeScatter.Left"/>).</summary>
    public double Left()
    {
        double blockFound = 0, blockExpected = 0, groupFound = 0, groupExpected = 0;
        for (int i = 0; i < rows.Length; i += 4)
        {
            blockFound += rows[i];
            blockExpected += rows[i + 1];
            groupFound += rows[i + 2];
            groupExpected += rows[i + 3];
        }

        return scatter is not null && groupExpected > 0 && blockFound > 0 ? scatter.Left(groupFound / groupExpected / (blockFound / blockExpected), shared) : shared;
    }
}
