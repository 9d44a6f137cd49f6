using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>At which nodes the gas is the surrounding one, as the case says.</summary>
internal static class AmbientNodes
{
    /// <summary>Marks them.</summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="isMeasured">Nodes with a displacement: an edge of the picture stands for the outermost column or row that has one.</param>
    /// <param name="settings">Edges and polygons.</param>
    public static bool[] Of(NodeGrid grid, bool[] isMeasured, FlowSettings settings)
    {
        bool[] isAmbient = new bool[grid.Count];
        int[] columns = [.. Enumerable.Range(0, grid.Columns).Where(column => Enumerable.Range(0, grid.Rows).Any(row => isMeasured[(row * grid.Columns) + column]))];
        int[] rows = [.. Enumerable.Range(0, grid.Rows).Where(row => Enumerable.Range(0, grid.Columns).Any(column => isMeasured[(row * grid.Columns) + column]))];
        if (columns.Length == 0)
            return isAmbient;
        for (int node = 0; node < grid.Count; node++)
        {
            int row = node / grid.Columns;
            int column = node % grid.Columns;
            isAmbient[node] = isMeasured[node]
                && (IsOnEdge(settings.AmbientEdges, column, row, columns, rows) || settings.AmbientRegions.Any(polygon => polygon.Contains(grid.X(column), grid.Y(row))));
        }

        return isAmbient;
    }

    private static bool IsOnEdge(PictureEdge edges, int column, int row, int[] columns, int[] rows) =>
        (edges.HasFlag(PictureEdge.Left) && column == columns[0])
        || (edges.HasFlag(PictureEdge.Right) && column == columns[^1])
        || (edges.HasFlag(PictureEdge.Top) && row == rows[0])
        || (edges.HasFlag(PictureEdge.Bottom) && row == rows[^1]);
}
