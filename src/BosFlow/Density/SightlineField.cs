using BosFlow.Displacement;
using BosFlow.Statistics;

namespace BosFlow.Density;

/// <summary>The mean displacement at the nodes of its grid, taken as places of the flow plane instead of places of the reference picture.</summary>
/// <remarks>
/// A dot of the reference at p is seen at p + u(p) through the flow: the ray that was deflected by it passed the flow plane where pixel p + u looks, not where
/// pixel p does. The displacement at a place X of the flow plane is therefore u(p) with p + u(p) = X, found by fixed-point iteration, which
/// contracts by the displacement's gradient (a few hundredths) in each turn.
/// </remarks>
internal sealed class SightlineField
{
    private const int Turns = 6;

    // A vector is never free of random error, however small its sigma was found.
    private const double LeastVarianceShare = 0.05;

    private SightlineField(NodeGrid grid)
    {
        Grid = grid;
        U = new double[grid.Count];
        V = new double[grid.Count];
        SigmaU = new double[grid.Count];
        SigmaV = new double[grid.Count];
        IsKnown = new bool[grid.Count];
    }

    private SightlineField(SightlineField other)
    {
        Grid = other.Grid;
        U = new double[Grid.Count];
        V = new double[Grid.Count];
        SigmaU = other.SigmaU;
        SigmaV = other.SigmaV;
        IsKnown = other.IsKnown;
    }

    public NodeGrid Grid { get; }

    /// <summary>Displacement to the right, px; NaN where not known.</summary>
    public double[] U { get; }

    /// <summary>Displacement down, px.</summary>
    public double[] V { get; }

    /// <summary>Standard uncertainty of U, px.</summary>
    public double[] SigmaU { get; }

    /// <summary>Standard uncertainty of V, px.</summary>
    public double[] SigmaV { get; }

    public bool[] IsKnown { get; }

    /// <summary>Carries the mean displacement to the flow plane.</summary>
    /// <param name="mean">Mean displacement; its sigma holds the systematic part of the error.</param>
    /// <param name="biasPixels">Amplitude of the systematic part, px, which is left out of the sigmas here: it is the same error everywhere, not one of each node.</param>
    public static SightlineField Of(FieldStatistics mean, double biasPixels)
    {
        NodeGrid grid = mean.Grid;
        bool[] isMeasured = [.. Enumerable.Range(0, grid.Count).Select(node => IsMeasured(mean, node))];
        var sampler = new NodeSampler(grid, isMeasured);
        var field = new SightlineField(grid);
        Span<int> nodes = stackalloc int[NodeSampler.LargestStencil];
        Span<double> weights = stackalloc double[NodeSampler.LargestStencil];
        for (int row = 0; row < grid.Rows; row++)
        {
            for (int column = 0; column < grid.Columns; column++)
                field.Find(mean, biasPixels, sampler, (row * grid.Columns) + column, grid.X(column), grid.Y(row), nodes, weights);
        }

        return field;
    }

    /// <summary>The field with its systematic error added once more.</summary>
    public SightlineField With(SubPixelBias bias) => Plus([.. U.Select(bias.OfU)], [.. V.Select(bias.OfV)]);

    /// <summary>The field with something added to the displacement.</summary>
    public SightlineField Plus(double[] u, double[] v)
    {
        var raised = new SightlineField(this);
        for (int node = 0; node < U.Length; node++)
        {
            raised.U[node] = U[node] + u[node];
            raised.V[node] = V[node] + v[node];
        }

        return raised;
    }

    private static bool IsMeasured(FieldStatistics mean, int node) =>
        float.IsFinite(mean.MeanU[node]) && float.IsFinite(mean.MeanV[node]) && mean.SigmaMeanU[node] > 0 && mean.SigmaMeanV[node] > 0
        && float.IsFinite(mean.SigmaMeanU[node]) && float.IsFinite(mean.SigmaMeanV[node]);

    private void Find(FieldStatistics mean, double biasPixels, NodeSampler sampler, int node, double x, double y, Span<int> nodes, Span<double> weights)
    {
        double u = 0;
        double v = 0;
        int count = 0;
        for (int turn = 0; turn < Turns; turn++)
        {
            count = sampler.Stencil(x - u, y - v, nodes, weights);
            if (count == 0)
                break;
            u = Sum(mean.MeanU, nodes, weights, count);
            v = Sum(mean.MeanV, nodes, weights, count);
        }

        IsKnown[node] = count > 0;
        U[node] = count > 0 ? u : double.NaN;
        V[node] = count > 0 ? v : double.NaN;
        // Neighbouring sigmas differ little and the shift is a fraction of the spacing: the interpolated one serves.
        SigmaU[node] = count > 0 ? Without(Sum(mean.SigmaMeanU, nodes, weights, count), biasPixels) : double.NaN;
        SigmaV[node] = count > 0 ? Without(Sum(mean.SigmaMeanV, nodes, weights, count), biasPixels) : double.NaN;
    }

    private static double Without(double sigma, double biasPixels)
    {
        double variance = sigma * sigma;
        return Math.Sqrt(Math.Max(variance - (biasPixels * biasPixels), LeastVarianceShare * variance));
    }

    private static double Sum(float[] values, Span<int> nodes, Span<double> weights, int count)
    {
        double sum = 0;
        for (int i = 0; i < count; i++)
            sum += weights[i] * values[nodes[i]];
        return sum;
    }
}
