namespace BosFlow.Density;

/// <summary>A linear combination of the displacement at some nodes: sum of WeightsU[k] u[Nodes[k]] + WeightsV[k] v[Nodes[k]]. A node may occur twice.</summary>
internal sealed record NodeCombination(int[] Nodes, double[] WeightsU, double[] WeightsV)
{
    /// <summary>Nothing: always 0.</summary>
    public static NodeCombination Zero { get; } = new([], [], []);

    /// <summary>a times one plus b times another.</summary>
    public static NodeCombination Sum(NodeCombination first, double a, NodeCombination second, double b) => new(
        [.. first.Nodes, .. second.Nodes],
        [.. first.WeightsU.Select(weight => a * weight), .. second.WeightsU.Select(weight => b * weight)],
        [.. first.WeightsV.Select(weight => a * weight), .. second.WeightsV.Select(weight => b * weight)]);

    /// <summary>Its value.</summary>
    public double Value(double[] u, double[] v)
    {
        double sum = 0;
        for (int k = 0; k < Nodes.Length; k++)
            sum += (WeightsU[k] * u[Nodes[k]]) + (WeightsV[k] * v[Nodes[k]]);
        return sum;
    }
}
