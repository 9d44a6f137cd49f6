using BosFlow.Camera;
using BosFlow.Footage;

namespace BosFlow.Synthesis;

/// <summary>Where in the picture a flow is: the region that registration leaves out.</summary>
public static class FlowOutline
{
    /// <summary>The outline of a scene's flow, clipped to the picture.</summary>
    /// <param name="scene">The scene.</param>
    /// <returns>The polygon, px; null where the flow fills the picture, or none of it is in the picture.</returns>
    public static PixelPolygon? Of(SyntheticScene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        if (scene.View is null || scene.Recipe.Flow.Outline(scene.View, SceneGas.Of(scene.Recipe.Gas)) is not { } outline)
            return null;
        return Rounded(ClipToPicture(outline, scene.Recipe.Width - 1, scene.Recipe.Height - 1));
    }

    /// <summary>Where in the picture the gas is the surrounding one, beside flows with straight edges.</summary>
    /// <param name="scene">The scene.</param>
    /// <returns>The polygons, px; none where the flow has no straight edge.</returns>
    public static IReadOnlyList<PixelPolygon> AmbientOf(SyntheticScene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        if (scene.View is null)
            return [];
        double right = scene.Recipe.Width - 1;
        double bottom = scene.Recipe.Height - 1;
        return [.. scene.Recipe.Flow.CalmSides(scene.View).Select(side => Rounded(Cut([(0, 0), (right, 0), (right, bottom), (0, bottom)], side.Depth))).OfType<PixelPolygon>()];
    }

    /// <summary>A polygon of the ideal picture as the scene's lens shows it: straight edges become curves, whose corners are 16 px apart.</summary>
    /// <param name="polygon">The polygon, px of the ideal picture.</param>
    /// <param name="recipe">The scene; without a lens the polygon stays as it is.</param>
    public static PixelPolygon AsFilmed(PixelPolygon polygon, SceneRecipe recipe)
    {
        const double Apart = 16;
        ArgumentNullException.ThrowIfNull(polygon);
        ArgumentNullException.ThrowIfNull(recipe);
        if (recipe.Lens is not { } parameters)
            return polygon;
        var lens = new LensModel(parameters);
        var corners = new List<(double X, double Y)>();
        for (int i = 0; i < polygon.Corners.Count; i++)
        {
            ((double x, double y), (double nextX, double nextY)) = (polygon.Corners[i], polygon.Corners[(i + 1) % polygon.Corners.Count]);
            int pieces = (int)Math.Ceiling(double.Hypot(nextX - x, nextY - y) / Apart);
            for (int piece = 0; piece < pieces; piece++)
            {
                (double column, double row) = lens.ToPicture(x + ((nextX - x) * piece / pieces), y + ((nextY - y) * piece / pieces));
                if (double.IsFinite(column))
                    corners.Add((Math.Clamp(column, 0, recipe.Width - 1), Math.Clamp(row, 0, recipe.Height - 1)));
            }
        }

        return new PixelPolygon(corners);
    }

    private static PixelPolygon? Rounded(List<(double X, double Y)> clipped)
    {
        (double X, double Y)[] rounded = [.. clipped.Select(corner => (Math.Round(corner.X), Math.Round(corner.Y)))];
        // A cut near a corner of the picture rounds to the same corner twice.
        (double X, double Y)[] corners = [.. rounded.Where((corner, i) => corner != rounded[(i + rounded.Length - 1) % rounded.Length])];
        return corners.Length < 3 ? null : new PixelPolygon(corners);
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
