using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Estimates, from the field itself, what the averaging over the windows took off its crests.</summary>
internal static class WindowAveraging
{
    // Two second differences and the smoothing reach one node each.
    private const int Reach = 3;

    /// <summary>Whether a grid is large enough for an estimate.</summary>
    public static bool IsPossible(NodeGrid grid) => grid.Columns > 2 * Reach && grid.Rows > 2 * Reach;

    /// <summary>The field with the estimate of what is missing added: factor times the second difference of the second difference, smoothed once by (1 2 1) / 4 against noise.</summary>
    /// <param name="field">Displacement.</param>
    /// <param name="factor">Missing part for a fourth difference of 1; see <see cref="DensityRequest.MissingPerFourthDifference"/>.</param>
    public static SightlineField Restored(SightlineField field, double factor) =>
        field.Plus(Missing(field.Grid, field.U, factor), Missing(field.Grid, field.V, factor));

    private static double[] Missing(NodeGrid grid, double[] values, double factor)
    {
        double[] fourth = Filtered(grid, Filtered(grid, values, Laplacian), Laplacian);
        double[] smooth = Filtered(grid, fourth, Binomial);
        return [.. Enumerable.Range(0, grid.Count).Select(node => AtOrInside(grid, smooth, node)).Select(value => double.IsNaN(value) ? 0 : factor * value)];
    }

    /// <summary>Along the edge of the grid the nearest estimate stands in; beside an unknown node there is none.</summary>
    private static double AtOrInside(NodeGrid grid, double[] values, int node)
    {
        if (!IsPossible(grid))
            return double.NaN;
        int column = Math.Clamp(node % grid.Columns, Reach, grid.Columns - 1 - Reach);
        int row = Math.Clamp(node / grid.Columns, Reach, grid.Rows - 1 - Reach);
        return values[(row * grid.Columns) + column];
    }

    private static double Laplacian(double middle, double sides, double corners) => sides - (4 * middle);

    private static double Binomial(double middle, double sides, double corners) => ((4 * middle) + (2 * sides) + corners) / 16;

    /// <summary>A filter of 3 x 3 nodes; NaN where it reaches beyond the grid or an unknown node.</summary>
    private static double[] Filtered(NodeGrid grid, double[] values, Func<double, double, double, double> filter)
    {
        double[] result = new double[values.Length];
        Array.Fill(result, double.NaN);
        int columns = grid.Columns;
        for (int row = 1; row < grid.Rows - 1; row++)
        {
            for (int column = 1; column < columns - 1; column++)
            {
                int at = (row * columns) + column;
                double sides = values[at - 1] + values[at + 1] + values[at - columns] + values[at + columns];
                double corners = values[at - columns - 1] + values[at - columns + 1] + values[at + columns - 1] + values[at + columns + 1];
                result[at] = filter(values[at], sides, corners);
            }
        }

        return result;
    }
}
