namespace BosFlow.Synthesis;

/// <summary>Outlines of flows in px, not yet cut at the edges of the picture.</summary>
internal static class OutlineShapes
{
    /// <summary>At 2.8 half-widths of a Gaussian the displacement is down to 0.3 % of its peak.</summary>
    public const double GaussianReach = 2.8;

    private const int DiscCorners = 24;

    /// <summary>A strip along an axis, from one side of the picture to the other.</summary>
    /// <param name="view">The camera.</param>
    /// <param name="originX">x of a point on the axis, m.</param>
    /// <param name="originY">y of that point, m.</param>
    /// <param name="directionDegrees">Direction of the axis, degrees counter-clockwise as seen.</param>
    /// <param name="halfWidthAt">Half the width of the strip at a distance along the axis from that point, m.</param>
    public static IReadOnlyList<(double X, double Y)> Strip(ViewGeometry view, double originX, double originY, double directionDegrees, Func<double, double> halfWidthAt)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(directionDegrees));
        double axisX = cosine;
        double axisY = -sine;
        (double X, double Y)[] corners = [(0, 0), (2 * view.CentreX, 0), (2 * view.CentreX, 2 * view.CentreY), (0, 2 * view.CentreY)];
        double[] along = [.. corners.Select(corner => view.OnFlowPlane(corner.X, corner.Y)).Select(point => ((point.X - originX) * axisX) + ((point.Y - originY) * axisY))];
        return [Corner(along.Min(), -1), Corner(along.Max(), -1), Corner(along.Max(), 1), Corner(along.Min(), 1)];

        (double X, double Y) Corner(double s, double side)
        {
            double q = side * halfWidthAt(s);
            return InPicture(view, originX + (s * axisX) - (q * axisY), originY + (s * axisY) + (q * axisX));
        }
    }

    /// <summary>A disc, as a regular polygon around it.</summary>
    /// <param name="view">The camera.</param>
    /// <param name="centreX">x of its centre, m.</param>
    /// <param name="centreY">y of its centre, m.</param>
    /// <param name="radius">Radius, m.</param>
    public static IReadOnlyList<(double X, double Y)> Disc(ViewGeometry view, double centreX, double centreY, double radius)
    {
        double corner = radius / Math.Cos(Math.PI / DiscCorners);
        return [.. Enumerable.Range(0, DiscCorners).Select(i =>
        {
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * i / DiscCorners);
            return InPicture(view, centreX + (corner * cosine), centreY + (corner * sine));
        })];
    }

    private static (double X, double Y) InPicture(ViewGeometry view, double x, double y) =>
        ((x / view.FlowMetresPerPixel) + view.CentreX, (y / view.FlowMetresPerPixel) + view.CentreY);
}
