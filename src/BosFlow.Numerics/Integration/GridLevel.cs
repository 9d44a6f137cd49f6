namespace BosFlow.Numerics.Integration;

/// <summary>The finest level: a grid with links to four neighbours.</summary>
internal sealed class GridLevel : ILevel
{
    private readonly GridStencil<float> stencil;
    private readonly int columns;

    /// <summary>Copies a stencil in single precision, its weights multiplied by a factor.</summary>
    public GridLevel(GridStencil<double> fine, int columns, double factor, Bands bands)
    {
        this.columns = columns;
        stencil = new GridStencil<float>(columns, fine.Nodes);
        Scale = stencil.NewPlane();
        bands.Run(Nodes, (from, to) =>
        {
            for (int i = from; i < to; i++)
            {
                int wide = i + fine.Pad, own = i + Pad;
                stencil.Right[own] = (float)(factor * fine.Right[wide]);
                stencil.Down[own] = (float)(factor * fine.Down[wide]);
                stencil.Excess[own] = (float)(factor * fine.Excess[wide]);
            }
        });
        bands.Run(Nodes, SetScale);
    }

    private GridLevel(GridStencil<float> stencil, int columns)
    {
        this.columns = columns;
        this.stencil = stencil;
        Scale = stencil.NewPlane();
        SetScale(0, Nodes);
    }

    public int Columns => columns;

    public int Nodes => stencil.Nodes;

    public int Pad => stencil.Pad;

    public float[] Scale { get; }

    public Aggregates? Next { get; set; }

    /// <summary>The coarse grid of blocks of 2 x 2 nodes: weights of links between two blocks summed (Galerkin's product with piecewise constants).</summary>
    public static GridLevel Contract(GridLevel fine, Aggregates blocks)
    {
        GridStencil<float> coarse = new(blocks.Columns, blocks.Count);
        for (int i = 0; i < fine.Nodes; i++)
        {
            int own = blocks.Coarse[i];
            if (own < blocks.Count)
                coarse.Excess[own + coarse.Pad] += fine.stencil.Excess[i + fine.Pad];
            Join(coarse.Right, fine.stencil.Right[i + fine.Pad], own, i + 1);
            Join(coarse.Down, fine.stencil.Down[i + fine.Pad], own, i + fine.columns);
        }

        return new GridLevel(coarse, blocks.Columns);

        void Join(float[] links, float weight, int own, int neighbour)
        {
            if (weight <= 0)
                return;
            int other = blocks.Coarse[neighbour];
            if (own == other)
                return;
            if (own == blocks.Count)
                coarse.Excess[other + coarse.Pad] += weight;
            else if (other == blocks.Count)
                coarse.Excess[own + coarse.Pad] += weight;
            else
                links[own + coarse.Pad] += weight;
        }
    }

    public float[] NewPlane() => stencil.NewPlane();

    public float Excess(int node) => stencil.Excess[node + Pad];

    public void Multiply(float[] x, float[] product, int from, int to) => stencil.Multiply(x, product, from, to);

    public void Residual(float[] x, float[] b, float[] residual, int from, int to) => stencil.Residual(x, b, residual, from, to);

    public void Smooth(float[] x, float[] b, float omega, float[] target, int from, int to) => stencil.Smooth(x, b, Scale, omega, target, from, to);

    public void Links(int node, Span<int> scratchNodes, Span<float> scratchWeights, out ReadOnlySpan<int> nodes, out ReadOnlySpan<float> weights)
    {
        int count = 0, i = node + Pad;
        Add(node - columns, stencil.Down[i - columns], scratchNodes, scratchWeights, ref count);
        Add(node - 1, stencil.Right[i - 1], scratchNodes, scratchWeights, ref count);
        Add(node + 1, stencil.Right[i], scratchNodes, scratchWeights, ref count);
        Add(node + columns, stencil.Down[i], scratchNodes, scratchWeights, ref count);
        nodes = scratchNodes[..count];
        weights = scratchWeights[..count];
    }

    private void SetScale(int from, int to)
    {
        for (int i = from + Pad; i < to + Pad; i++)
        {
            float diagonal = stencil.Excess[i] + stencil.Right[i - 1] + stencil.Right[i] + stencil.Down[i - columns] + stencil.Down[i];
            Scale[i] = diagonal > 0 ? 1 / diagonal : 0;
        }
    }

    private static void Add(int node, float weight, Span<int> nodes, Span<float> weights, ref int count)
    {
        if (weight <= 0)
            return;
        nodes[count] = node;
        weights[count++] = weight;
    }
}
