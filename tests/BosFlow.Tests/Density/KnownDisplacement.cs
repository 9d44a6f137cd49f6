using BosFlow.Displacement;
using BosFlow.Statistics;

namespace BosFlow.Tests.Density;

/// <summary>Mean displacements whose truth is known at every place of the flow plane.</summary>
internal static class KnownDisplacement
{
    /// <summary>The statistics that a perfect measurement of a displacement would give: at p the u with u = U(p + u), U being given at places of the flow plane.</summary>
    /// <param name="grid">Nodes.</param>
    /// <param name="truth">Displacement at a place of the flow plane, px.</param>
    /// <param name="sigma">Standard uncertainty stated for every node, px.</param>
    public static FieldStatistics Of(NodeGrid grid, Func<double, double, (double U, double V)> truth, double sigma)
    {
        float[] u = new float[grid.Count];
        float[] v = new float[grid.Count];
        for (int node = 0; node < grid.Count; node++)
        {
            double x = grid.X(node % grid.Columns);
            double y = grid.Y(node / grid.Columns);
            (double du, double dv) = (0, 0);
            for (int turn = 0; turn < 40; turn++)
                (du, dv) = truth(x + du, y + dv);
            (u[node], v[node]) = ((float)du, (float)dv);
        }

        return Of(grid, u, v, sigma);
    }

    /// <summary>The statistics of given means.</summary>
    public static FieldStatistics Of(NodeGrid grid, float[] u, float[] v, double sigma) => Of(grid, u, v, [.. u.Select(value => float.IsNaN(value) ? float.NaN : (float)sigma)]);

    /// <summary>The statistics of given means and uncertainties.</summary>
    public static FieldStatistics Of(NodeGrid grid, float[] u, float[] v, float[] sigma) => new()
    {
        Grid = grid,
        MeanU = u,
        MeanV = v,
        RmsU = sigma,
        RmsV = sigma,
        SigmaMeanU = sigma,
        SigmaMeanV = sigma,
        MeanCorrelation = [.. u.Select(value => float.IsNaN(value) ? 0f : 1f)],
        Count = [.. u.Select(value => float.IsNaN(value) ? 0 : 4)],
        PrevailingFlags = new VectorFlags[grid.Count],
    };

    /// <summary>The same with nodes missing, and flagged.</summary>
    public static FieldStatistics Without(FieldStatistics mean, Func<double, double, bool> isMissing, VectorFlags flag)
    {
        NodeGrid grid = mean.Grid;
        bool[] missing = [.. Enumerable.Range(0, grid.Count).Select(node => isMissing(grid.X(node % grid.Columns), grid.Y(node / grid.Columns)))];
        FieldStatistics without = Of(
            grid, [.. mean.MeanU.Select((value, node) => missing[node] ? float.NaN : value)], [.. mean.MeanV.Select((value, node) => missing[node] ? float.NaN : value)],
            [.. mean.SigmaMeanU.Select((value, node) => missing[node] ? float.NaN : value)]);
        for (int node = 0; node < grid.Count; node++)
            without.PrevailingFlags[node] = missing[node] ? flag : VectorFlags.None;
        return without;
    }
}
