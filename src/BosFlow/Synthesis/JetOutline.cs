using BosFlow.Footage;

namespace BosFlow.Synthesis;

/// <summary>Where in the picture a jet is: the region that registration leaves out.</summary>
public static class JetOutline
{
    // At 2.8 half-widths the displacement is down to 0.3 % of its peak.
    private const double Reach = 2.8;

    /// <summary>The outline of a scene's jet, clipped to the picture.</summary>
    /// <param name="scene">The scene.</param>
    /// <returns>The polygon, px; null where the scene has no jet, or none of it is in the picture.</returns>
    public static PixelPolygon? Of(SyntheticScene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        if (scene.Recipe.Flow is not FlowRecipe.Jet recipe || scene.View is null)
            return null;
        ViewGeometry view = scene.View;
        HotJet jet = recipe.InView(view, SceneGas.Of(scene.Recipe.Gas));
        double right = scene.Recipe.Width - 1;
        double bottom = scene.Recipe.Height - 1;
        (double X, double Y)[] corners = [(0, 0), (right, 0), (right, bottom), (0, bottom)];
        double[] along = [.. corners.Select(corner => view.OnFlowPlane(corner.X, corner.Y)).Select(point => jet.Split(point.X, point.Y).Along)];
        (double X, double Y)[] outline = [Corner(along.Min(), -1), Corner(along.Max(), -1), Corner(along.Max(), 1), Corner(along.Min(), 1)];
        List<(double X, double Y)> clipped = ClipToPicture(outline, right, bottom);
        return clipped.Count < 3 ? null : new PixelPolygon([.. clipped.Select(corner => (Math.Round(corner.X), Math.Round(corner.Y)))]);

        (double X, double Y) Corner(double s, double side)
        {
            (double ax, double ay) = jet.Axis;
            double q = side * Reach * jet.HalfWidthAt(s);
            double x = jet.NozzleX + (s * ax) - (q * ay);
            double y = jet.NozzleY + (s * ay) + (q * ax);
            return ((x / view.FlowMetresPerPixel) + view.CentreX, (y / view.FlowMetresPerPixel) + view.CentreY);
        }
    }

    /// <summary>Cuts a polygon at the four edges one after another (I. E. Sutherland and G. W. Hodgman 1974, doi 10.1145/360767.360802).</summary>
    private static List<(double X, double Y)> ClipToPicture(IReadOnlyList<(double X, double Y)> polygon, double right, double bottom)
    {
        List<(double X, double Y)> clipped = Cut(polygon, corner => corner.X);
        clipped = Cut(clipped, corner => right - corner.X);
        clipped = Cut(clipped, corner => corner.Y);
        return Cut(clipped, corner => bottom - corner.Y);
    }

    /// <summary>Keeps the part where the distance is not negative.</summary>
    private static List<(double X, double Y)> Cut(IReadOnlyList<(double X, double Y)> polygon, Func<(double X, double Y), double> distance)
    {
        var kept = new List<(double X, double Y)>();
        for (int i = 0; i < polygon.Count; i++)
        {
            (double X, double Y) from = polygon[i];
            (double X, double Y) to = polygon[(i + 1) % polygon.Count];
            double before = distance(from);
            double after = distance(to);
            if (before >= 0)
                kept.Add(from);
            if (before >= 0 != after >= 0)
            {
                double share = before / (before - after);
                kept.Add((from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y))));
            }
        }

        return kept;
    }
}
