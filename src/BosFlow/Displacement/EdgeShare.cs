namespace BosFlow.Displacement;

/// <summary>How much of the scatter of residuals from block to block the edges of the blocks make, from what groups of 2 x 2 blocks scatter in the same frame.</summary>
/// <remarks>
/// What an edge cuts grows with the length of the edges, what is independent with the area, so that the scatter over that of independent residuals is a + b / side: with k its ratio for twice the side, a = 2 k - 1 of that of single blocks (derived).
/// Both are compared with what the passes leave of independent residuals (<see cref="GroupScatter"/>). Working memory of one frame.
/// </remarks>
internal sealed class EdgeShare
{
    /// <summary>Blocks along the side of a group.</summary>
    public const int Side = 2;

    // Rows of groups that tell enough; more cost time.
    private const int EnoughRows = 32;

    // Fewer of them tell less than what they would mend.
    private const int FewestBlocks = 2000;
    private const double Least = 0.5;

    private readonly int columns;
    private readonly int rowStep;
    private readonly double expectedRatio;
    private readonly double[] rows;

    /// <summary>Prepares the rows.</summary>
    /// <param name="layout">The blocks.</param>
    /// <param name="expectedRatio">That of <see cref="ExpectedRatio"/>; null = nothing is said of edges.</param>
    public EdgeShare(BlockLayout layout, double? expectedRatio)
    {
        columns = layout.Columns;
        int rated = layout.Rows / BlockScatter.RowStep;
        rowStep = Math.Max(1, rated / EnoughRows);
        rows = expectedRatio is null ? [] : new double[((rated / rowStep) + 1) * 4];
        this.expectedRatio = expectedRatio ?? 1;
    }

    /// <summary>Scatter of groups over that of single blocks for independent residuals, which the settings alone decide; null where groups tell nothing of edges.</summary>
    /// <remarks>A group that is nearly the window scatters hardly at all, polynomials fit most of what a group scatters, and sums that were moved have errors of their own, which residuals do not show.</remarks>
    public static double? ExpectedRatio(BlockLayout layout, DisplacementSettings settings)
    {
        bool tells = settings is { Shape: WindowShape.Constant, LastPass: Sampling.Everywhere } && layout.PerWindow >= 2 * Side && layout.Rows * layout.Columns >= FewestBlocks;
        return tells ? Left(Side) / Left(1) : null;

        double Left(int side) => GroupScatter.Left(layout, side, settings.Passes, settings.PredictorSmoothings);
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

    /// <summary>Part of the scatter of single blocks that is left without their edges, 0.5 to 1.</summary>
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

        if (!(groupExpected > 0) || !(blockFound > 0))
            return 1;
        double ratio = groupFound / groupExpected / (blockFound / blockExpected) / expectedRatio;
        return Math.Clamp((2 * ratio) - 1, Least, 1);
    }
}
