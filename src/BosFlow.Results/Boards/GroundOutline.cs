using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Outline of a dark or grey ground: the pattern without the white zones of the fiducials.</summary>
/// <remarks>White laid over the ground, or two edges on one another, would leave a hairline where a zone reaches the edge of the pattern.</remarks>
internal static class GroundOutline
{
    // Places of fiducials are whole steps of 0.1 um, edges of the pattern need not be: what is nearer is the same edge.
    private const double SameEdge = 1e-6;

    /// <summary>The outlines on the paper; no edge lies on another.</summary>
    public static IReadOnlyList<IReadOnlyList<SheetPoint>> Of(Board board, SheetFrame frame)
    {
        BoardRectangle pattern = board.Pattern;
        BoardRectangle[] zones = [.. board.Fiducials.Select(fiducial => FiducialShapes.Zone(fiducial, board.FiducialQuietZone))];
        double[] x = Edges(pattern.Left, pattern.Right, zones.SelectMany(zone => (double[])[zone.Left, zone.Right]));
        double[] y = Edges(pattern.Top, pattern.Bottom, zones.SelectMany(zone => (double[])[zone.Top, zone.Bottom]));
        bool IsGround(int row, int column)
        {
            if (row >= y.Length - 1 || column >= x.Length - 1)
                return false;
            double middleX = (x[column] + x[column + 1]) / 2;
            double middleY = (y[row] + y[row + 1]) / 2;
            return !zones.Any(zone => middleX > zone.Left && middleX < zone.Right && middleY > zone.Top && middleY < zone.Bottom);
        }

        return [.. FiducialOutline.Trace(Math.Max(x.Length, y.Length) - 1, IsGround)
            .Select(outline => (IReadOnlyList<SheetPoint>)[.. outline.Select(corner => frame.Place(x[corner.X], y[corner.Y]))])];
    }

    // The two ends and the edges between them, in order, each once.
    private static double[] Edges(double first, double last, IEnumerable<double> others)
    {
        List<double> edges = [first];
        foreach (double edge in others.Order())
        {
            if (edge > edges[^1] + SameEdge && edge < last - SameEdge)
                edges.Add(edge);
        }

        return [.. edges, last];
    }
}
