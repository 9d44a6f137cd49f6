using System.Numerics;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Working memory of one thread in a pass over blocks.</summary>
internal sealed class BlockWorkspace
{
    private readonly int width;
    private readonly int[] slotRows = [-1, -1, -1, -1];

    public BlockWorkspace(BlockLayout layout, int gridColumns, int predictorColumns, ShapeMoments? moments)
    {
        Moments = moments;
        width = layout.FirstX + layout.TiledWidth;
        Stride = width + Vector<float>.Count;
        U = new float[4 * Stride];
        V = new float[4 * Stride];
        RowWeights = new float[4 * layout.Side];
        Summed = new byte[layout.Tiles];
        Sampled = new byte[layout.Tiles];
        Moved = new MovedRow(layout.Columns, gridColumns, predictorColumns);
        Sure = new bool[layout.Tiles];
        ColumnSums = new float[TileProducts.Terms * layout.TiledWidth];
        BlockColumn = new float[layout.Columns];
        WindowSums = new float[TileProducts.Terms * gridColumns];
        Matches = new MatchedRow(gridColumns);
        IncompleteBlocks = new byte[layout.Columns];
    }

    /// <summary>Floats from one of the four rows of nodes to the next.</summary>
    public int Stride { get; }

    /// <summary>Displacement along four rows of nodes, row k of the nodes at place k mod 4.</summary>
    public float[] U { get; }

    public float[] V { get; }

    /// <summary>Weights of the four places in every row of pixels.</summary>
    public float[] RowWeights { get; }

    /// <summary>1 for tiles that the fast kernel sums.</summary>
    public byte[] Summed { get; }

    /// <summary>1 for tiles in which the frame is read.</summary>
    public byte[] Sampled { get; }

    /// <summary>Memory for the blocks in which it is not.</summary>
    public MovedRow Moved { get; }

    /// <summary>Whether all pixels of a tile surely fall within the frame, and on no defect.</summary>
    public bool[] Sure { get; }

    public float[] ColumnSums { get; }

    public float[] BlockColumn { get; }

    public float[] WindowSums { get; }

    public MatchedRow Matches { get; }

    /// <summary>Sums with polynomials as weights; null where windows have none.</summary>
    public ShapeMoments? Moments { get; }

    /// <summary>Not 0 for every column of blocks in which the windows of a row miss pixels.</summary>
    public byte[] IncompleteBlocks { get; }

    /// <summary>Forgets the rows of nodes of another predictor.</summary>
    public void Begin() => slotRows.AsSpan().Fill(-1);

    /// <summary>Prepares the displacement within a row of blocks; it lies between two rows of nodes.</summary>
    public void Advance(int y, int rows, PredictorField predictor)
    {
        int above = predictor.NodesAbove(y);
        for (int node = above - 1; node <= above + 2; node++)
        {
            int slot = node & 3;
            if (slotRows[slot] == node)
                continue;
            predictor.AlongNodes(node, width, U.AsSpan(slot * Stride, Stride), V.AsSpan(slot * Stride, Stride));
            slotRows[slot] = node;
        }

        Span<float> weights = stackalloc float[4];
        for (int k = 0; k < rows; k++)
        {
            predictor.RowWeights(y + k, above, weights);
            for (int j = 0; j < 4; j++)
                RowWeights[(4 * k) + ((above - 1 + j) & 3)] = weights[j];
        }
    }

    /// <summary>Bounds of the displacement over some columns of the current row of blocks, px.</summary>
    public (float LeastU, float MostU, float LeastV, float MostV) RangeOver(int x, int columns)
    {
        (float leastU, float mostU) = Range(U, x, columns);
        (float leastV, float mostV) = Range(V, x, columns);
        return (leastU, mostU, leastV, mostV);
    }

    // The negative weights of cubic convolution sum up to 1/8 between the rows.
    private (float Least, float Most) Range(float[] rows, int x, int columns)
    {
        float least = float.PositiveInfinity, most = float.NegativeInfinity;
        for (int slot = 0; slot < 4; slot++)
        {
            (float leastOfRow, float mostOfRow) = RowArithmetic.Range(rows.AsSpan((slot * Stride) + x, columns));
            (least, most) = (Math.Min(least, leastOfRow), Math.Max(most, mostOfRow));
        }

        float beyond = 0.13f * (most - least);
        return (least - beyond, most + beyond);
    }

    /// <summary>Displacement in one row of pixels of the current row of blocks.</summary>
    public void DisplacementAt(int rowInBlock, int x, Span<float> u, Span<float> v)
    {
        ReadOnlySpan<float> w = RowWeights.AsSpan(4 * rowInBlock, 4);
        Between(U, w, x, u);
        Between(V, w, x, v);
    }

    private void Between(float[] rows, ReadOnlySpan<float> w, int x, Span<float> target)
    {
        int lanes = Vector<float>.Count, k = 0;
        for (; k <= target.Length - lanes; k += lanes)
        {
            int at = x + k;
            ((w[0] * new Vector<float>(rows, at)) + (w[1] * new Vector<float>(rows, Stride + at)) + (w[2] * new Vector<float>(rows, (2 * Stride) + at))
                + (w[3] * new Vector<float>(rows, (3 * Stride) + at))).CopyTo(target[k..]);
        }

        for (; k < target.Length; k++)
        {
            int at = x + k;
            target[k] = (w[0] * rows[at]) + (w[1] * rows[Stride + at]) + (w[2] * rows[(2 * Stride) + at]) + (w[3] * rows[(3 * Stride) + at]);
        }
    }
}
