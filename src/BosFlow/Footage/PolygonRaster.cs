namespace BosFlow.Footage;

/// <summary>Fills polygons on a pixel grid by the even-odd rule at pixel centres.</summary>
internal static class PolygonRaster
{
    /// <summary>Sets the mask to 0 inside a polygon.</summary>
    /// <param name="mask">Row-major, width * height.</param>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="height">Rows.</param>
    /// <param name="polygon">Corners, px.</param>
    /// <returns>Number of pixels inside the polygon, whatever the mask held there.</returns>
    internal static int Clear(byte[] mask, int width, int height, PixelPolygon polygon)
    {
        int inside = 0;
        var crossings = new List<double>();
        for (int y = 0; y < height; y++)
        {
            FindCrossings(polygon.Corners, y, crossings);
            for (int pair = 0; pair + 1 < crossings.Count; pair += 2)
            {
                int from = Math.Clamp((int)Math.Ceiling(crossings[pair]), 0, width);
                int to = Math.Clamp((int)Math.Ceiling(crossings[pair + 1]), from, width);
                mask.AsSpan((y * width) + from, to - from).Clear();
                inside += to - from;
            }
        }

        return inside;
    }

    // Where the edges cross the line through the centres of row y, ascending. An edge counts for its upper end and
    // not for its lower one, so a corner on the line is met once where the outline passes it, and twice or never
    // where it only touches.
    private static void FindCrossings(IReadOnlyList<(double X, double Y)> corners, int y, List<double> crossings)
    {
        crossings.Clear();
        for (int i = 0; i < corners.Count; i++)
        {
            (double x0, double y0) = corners[i];
            (double x1, double y1) = corners[(i + 1) % corners.Count];
            // From the upper end downwards, so that the edge two polygons share gives both the same number.
            if (y0 > y1)
                (x0, y0, x1, y1) = (x1, y1, x0, y0);
            if (y0 <= y && y < y1)
                crossings.Add(x0 + ((y - y0) / (y1 - y0) * (x1 - x0)));
        }

        crossings.Sort();
    }
}
