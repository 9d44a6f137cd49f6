using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Working memory of one thread in a pass over blocks.</summary>
internal sealed class BlockWorkspace
{
    private readonly int width;
    private readonly int[] slotRows = [-1, -1, -1, -1];

    public BlockWorkspace(BlockLayout layout, int gridColumns)
    {
        width = layout.FirstX + layout.TiledWidth;
        Stride = width + System.Numerics.Vector<float>.Count;
        U = new float[4 * Stride];
        V = new float[4 * Stride];
        RowWeights = new float[4 * layout.Side];
        Summed = new byte[layout.Tiles];
        ColumnSums = new float[TileProducts.Terms * layout.TiledWidth];
        WindowStride = gridColumns;
        BlockColumn = new float[layout.Columns];
        WindowSums = new float[TileProducts.Terms * gridColumns];
        Matches = new MatchedRow(gridColumns);
    }

    /// <summary>Floats from one of the four rows of nodes to the next.</summary>
    public int Stride { get; }

    /// <summary>Displacement along four rows of nodes, row k of the nodes at place k mod 4.</summary>
    public float[] U { get; }

    public float[] V { get; }

    /// <summary>Weights of the four places in every row of pixels.</summary>
    public float[] RowWeights { get; }

    public byte[] Summed { get; }

    public float[] ColumnSums { get; }

    public float[] BlockColumn { get; }

    public int WindowStride { get; }

    public float[] WindowSums { get; }

    public MatchedRow Matches { get; }

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

    /// <summary>Displacement in one row of pixels of the current row of blocks.</summary>
    public void DisplacementAt(int rowInBlock, int x, Span<float> u, Span<float> v)
    {
        ReadOnlySpan<float> w = RowWeights.AsSpan(4 * rowInBlock, 4);
        for (int k = 0; k < u.Length; k++)
        {
            int at = x + k;
            u[k] = (w[0] * U[at]) + (w[1] * U[Stride + at]) + (w[2] * U[(2 * Stride) + at]) + (w[3] * U[(3 * Stride) + at]);
            v[k] = (w[0] * V[at]) + (w[1] * V[Stride + at]) + (w[2] * V[(2 * Stride) + at]) + (w[3] * V[(3 * Stride) + at]);
        }
    }
}
