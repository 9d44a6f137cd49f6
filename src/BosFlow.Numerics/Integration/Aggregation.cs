namespace BosFlow.Numerics.Integration;

/// <summary>Chooses which nodes are joined on the next level: about four at a time, only along strong links.</summary>
/// <remarks>
/// A link is strong when it has at least a quarter of the weight of the strongest link of one of its ends. Coarse levels join pairs twice
/// (Y. Notay 2010, Electron. Trans. Numer. Anal. 37, 123: aggregation by double pairing; from memory, in a simpler form). On the grid, blocks of 2 x 2 nodes are joined
/// where strong links inside the block connect them, so that coarse grids keep their geometry where the domain allows it. Nodes without a link, and nodes
/// held by their own diagonal, are left to the smoother.
/// </remarks>
internal static class Aggregation
{
    private const float Strong = 0.25f;

    /// <summary>A diagonal so far above the links' sum that the smoother alone solves the node.</summary>
    private const float Held = 4;

    public static Aggregates Blocks(GridLevel level)
    {
        int columns = level.Columns, rows = level.Nodes / columns, count = 0;
        bool isGrid = true;
        float[] strongest = Strongest(level);
        int[] coarse = new int[level.Nodes];
        Array.Fill(coarse, -1);
        for (int y = 0; y < rows; y += 2)
        {
            for (int x = 0; x < columns; x += 2)
            {
                int before = count;
                JoinBlock(level, strongest, coarse, x, y, Math.Min(x + 2, columns), Math.Min(y + 2, rows), ref count);
                isGrid &= count <= before + 1;
            }
        }

        return isGrid && count > 0 ? Grid(coarse, columns, rows) : new Aggregates(coarse, count);
    }

    // No block fell apart: the coarse nodes are the blocks, a grid again (which has the fast loops), some of them perhaps empty.
    private static Aggregates Grid(int[] coarse, int columns, int rows)
    {
        int across = (columns + 1) / 2, down = (rows + 1) / 2;
        for (int i = 0; i < coarse.Length; i++)
        {
            if (coarse[i] >= 0)
                coarse[i] = (i / columns / 2 * across) + (i % columns / 2);
        }

        return new Aggregates(coarse, across * down) { Columns = across };
    }

    public static Aggregates Pairs(ILevel level)
    {
        float[] strongest = Strongest(level);
        int[] coarse = new int[level.Nodes];
        Array.Fill(coarse, -1);
        int count = 0;
        Span<int> scratchNodes = stackalloc int[4];
        Span<float> scratchWeights = stackalloc float[4];
        for (int i = 0; i < coarse.Length; i++)
        {
            if (coarse[i] >= 0 || strongest[i] <= 0)
                continue;
            level.Links(i, scratchNodes, scratchWeights, out ReadOnlySpan<int> nodes, out ReadOnlySpan<float> weights);
            int free = Best(i, nodes, weights, strongest, coarse, wantFree: true);
            if (free >= 0)
            {
                coarse[i] = coarse[free] = count++;
                continue;
            }

            // All strong neighbours have a partner: joining them beats staying alone, which would stop the coarsening of stars.
            int joined = Best(i, nodes, weights, strongest, coarse, wantFree: false);
            coarse[i] = joined >= 0 ? coarse[joined] : count++;
        }

        return new Aggregates(coarse, count);
    }

    private static int Best(int i, ReadOnlySpan<int> nodes, ReadOnlySpan<float> weights, float[] strongest, int[] coarse, bool wantFree)
    {
        int best = -1;
        float most = 0;
        for (int k = 0; k < nodes.Length; k++)
        {
            int j = nodes[k];
            if (strongest[j] <= 0 || coarse[j] < 0 != wantFree || weights[k] < Strong * Math.Min(strongest[i], strongest[j]) || weights[k] <= most)
                continue;
            most = weights[k];
            best = j;
        }

        return best;
    }

    // Weight of the strongest link of each node; 0 for a node that is left to the smoother.
    private static float[] Strongest(ILevel level)
    {
        float[] strongest = new float[level.Nodes];
        Span<int> scratchNodes = stackalloc int[4];
        Span<float> scratchWeights = stackalloc float[4];
        for (int i = 0; i < strongest.Length; i++)
        {
            level.Links(i, scratchNodes, scratchWeights, out _, out ReadOnlySpan<float> weights);
            float sum = 0, most = 0;
            foreach (float weight in weights)
            {
                sum += weight;
                most = Math.Max(most, weight);
            }

            strongest[i] = level.Excess(i) > Held * sum ? 0 : most;
        }

        return strongest;
    }

    private static void JoinBlock(GridLevel level, float[] strongest, int[] coarse, int left, int top, int right, int bottom, ref int count)
    {
        for (int y = top; y < bottom; y++)
        {
            for (int x = left; x < right; x++)
            {
                int i = (y * level.Columns) + x;
                if (coarse[i] < 0 && strongest[i] > 0)
                    Spread(level, strongest, coarse, i, count++, left, top, right, bottom);
            }
        }
    }

    private static void Spread(GridLevel level, float[] strongest, int[] coarse, int i, int number, int left, int top, int right, int bottom)
    {
        coarse[i] = number;
        Span<int> scratchNodes = stackalloc int[4];
        Span<float> scratchWeights = stackalloc float[4];
        level.Links(i, scratchNodes, scratchWeights, out ReadOnlySpan<int> nodes, out ReadOnlySpan<float> weights);
        for (int k = 0; k < nodes.Length; k++)
        {
            int j = nodes[k], x = j % level.Columns, y = j / level.Columns;
            bool inside = x >= left && x < right && y >= top && y < bottom;
            if (inside && coarse[j] < 0 && strongest[j] > 0 && weights[k] >= Strong * Math.Min(strongest[i], strongest[j]))
                Spread(level, strongest, coarse, j, number, left, top, right, bottom);
        }
    }
}
