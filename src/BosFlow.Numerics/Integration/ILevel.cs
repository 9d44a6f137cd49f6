namespace BosFlow.Numerics.Integration;

/// <summary>One level of the hierarchy: a weighted graph Laplacian plus a diagonal, in single precision, and how its nodes are joined on the next level.</summary>
internal interface ILevel
{
    int Nodes { get; }

    /// <summary>Position of node 0 in the level's planes.</summary>
    int Pad { get; }

    /// <summary>One over the diagonal at each place of a plane, 0 where the node has no equation.</summary>
    float[] Scale { get; }

    Aggregates? Next { get; set; }

    float[] NewPlane();

    void Multiply(float[] x, float[] product, int from, int to);

    void Residual(float[] x, float[] b, float[] residual, int from, int to);

    void Smooth(float[] x, float[] b, float omega, float[] target, int from, int to);

    /// <summary>Neighbours of a node and the weights of the links to them; grid levels write into the scratch spans.</summary>
    void Links(int node, Span<int> scratchNodes, Span<float> scratchWeights, out ReadOnlySpan<int> nodes, out ReadOnlySpan<float> weights);

    /// <summary>What the diagonal of a node has above the sum of its links.</summary>
    float Excess(int node);
}
