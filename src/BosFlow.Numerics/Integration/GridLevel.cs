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
        bands.Run(Nodes, (from, to) =>
        {
            for (int i = from + Pad; i < to + Pad; i++)
            {
                float diagonal = stencil.Excess[i] + stencil.Right[i - 1] + stencil.Right[i] + stencil.Down[i - columns] + stencil.Down[i];
                Scale[i] = diagonal > 0 ? 1 / diagonal : 0;
            }
        });
    }

    public int Columns => columns;

    public int Nodes => stencil.Nodes;

    public int Pad => stencil.Pad;

    public float[] Scale { get; }

    public Aggregates? Next { get; set; }

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

    private static void Add(int node, float weight, Span<int> nodes, Span<float> weights, ref int count)
    {
        if (weight <= 0)
            return;
        nodes[count] = node;
        weights[count++] = weight;
    }
}
