namespace BosFlow.Numerics.Integration;

/// <summary>A coarse level: any graph, links of node i at start[i] .. start[i + 1].</summary>
internal sealed class GraphLevel : ILevel
{
    private readonly int[] start;
    private readonly int[] neighbour;
    private readonly float[] weight;
    private readonly float[] excess;

    public GraphLevel(int[] start, int[] neighbour, float[] weight, float[] excess)
    {
        this.start = start;
        this.neighbour = neighbour;
        this.weight = weight;
        this.excess = excess;
        Scale = NewPlane();
        for (int i = 0; i < Nodes; i++)
        {
            float diagonal = excess[i];
            for (int k = start[i]; k < start[i + 1]; k++)
                diagonal += weight[k];
            Scale[i] = diagonal > 0 ? 1 / diagonal : 0;
        }
    }

    public int Nodes => excess.Length;

    public int LinkCount => neighbour.Length;

    public int Pad => 0;

    public float[] Scale { get; }

    public Aggregates? Next { get; set; }

    // One entry more than nodes: it stays 0 and stands for "no coarse node".
    public float[] NewPlane() => new float[Nodes + 1];

    public float Excess(int node) => excess[node];

    public void Multiply(float[] x, float[] product, int from, int to)
    {
        for (int i = from; i < to; i++)
            product[i] = Row(x, i);
    }

    public void Residual(float[] x, float[] b, float[] residual, int from, int to)
    {
        for (int i = from; i < to; i++)
            residual[i] = b[i] - Row(x, i);
    }

    public void Smooth(float[] x, float[] b, float omega, float[] target, int from, int to)
    {
        for (int i = from; i < to; i++)
            target[i] = x[i] + (omega * Scale[i] * (b[i] - Row(x, i)));
    }

    public void Links(int node, Span<int> scratchNodes, Span<float> scratchWeights, out ReadOnlySpan<int> nodes, out ReadOnlySpan<float> weights)
    {
        nodes = neighbour.AsSpan(start[node], start[node + 1] - start[node]);
        weights = weight.AsSpan(start[node], start[node + 1] - start[node]);
    }

    private float Row(float[] x, int i)
    {
        float here = x[i], sum = excess[i] * here;
        int first = start[i];
        ReadOnlySpan<int> nodes = neighbour.AsSpan(first, start[i + 1] - first);
        ReadOnlySpan<float> weights = weight.AsSpan(first, nodes.Length);
        for (int k = 0; k < nodes.Length; k++)
            sum += weights[k] * (here - x[nodes[k]]);
        return sum;
    }
}
