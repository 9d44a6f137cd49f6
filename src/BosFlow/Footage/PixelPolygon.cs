namespace BosFlow.Footage;

/// <summary>A closed polygon, corners in px, x to the right and y down; at least three corners.</summary>
/// <param name="Corners">The corners in order; the last joins the first.</param>
public sealed record PixelPolygon(IReadOnlyList<(double X, double Y)> Corners)
{
    /// <summary>Whether a place lies inside, by the even-odd rule.</summary>
    /// <param name="x">x, px.</param>
    /// <param name="y">y, px.</param>
    public bool Contains(double x, double y)
    {
        bool isInside = false;
        for (int i = 0; i < Corners.Count; i++)
        {
            (double x0, double y0) = Corners[i];
            (double x1, double y1) = Corners[(i + 1) % Corners.Count];
            // An edge counts for its upper end and not for its lower one, so that a corner is met once.
            if (y0 <= y != y1 <= y && x < x0 + ((y - y0) / (y1 - y0) * (x1 - x0)))
                isInside = !isInside;
        }

        return isInside;
    }
}
