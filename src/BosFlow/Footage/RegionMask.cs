namespace BosFlow.Footage;

/// <summary>The masks that the region settings mean on a picture of one size.</summary>
/// <param name="Measurable">Pixels that are measured: inside the region of interest and outside every exclude polygon.</param>
/// <param name="Undisturbed">Measurable pixels outside every flow polygon: what registration may trust. Empty of pixels where the flow polygons cover everything.</param>
public sealed record RegionMask(PixelMask Measurable, PixelMask Undisturbed)
{
    /// <summary>Draws the region's rectangle and polygons as masks.</summary>
    /// <param name="settings">Rectangle and polygons, px of the picture.</param>
    /// <param name="width">Pixels in a row, at least 1.</param>
    /// <param name="height">Rows, at least 1.</param>
    /// <exception cref="InputDataException">A polygon has fewer than three corners, reaches outside the picture or holds no pixel; the rectangle reaches outside; or nothing is left to measure.</exception>
    /// <remarks>
    /// A pixel belongs to a polygon if its centre does, by the even-odd rule; centres on a left or upper edge belong
    /// to it, on a right or lower edge they do not. The corners (0, 0), (W, 0), (W, H), (0, H) thus hold the whole
    /// picture, and two polygons that share an edge share no pixel. Corners may lie from -0.5 to W and from -0.5 to H,
    /// so that both ways of naming the outer edge are accepted.
    /// </remarks>
    public static RegionMask Build(RegionSettings settings, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(settings);
        byte[] measurable = Interest(settings.Interest, width, height);
        Clear(measurable, settings.Exclude, "region.exclude", width, height);
        if (!measurable.Contains((byte)1))
            throw new InputDataException(FormattableString.Invariant($"region.interest_px and region.exclude leave no pixel of the {width} x {height} picture to measure: make the excluded polygons smaller."));
        byte[] undisturbed = (byte[])measurable.Clone();
        Clear(undisturbed, settings.Flow, "region.flow", width, height);
        return new RegionMask(new PixelMask(width, height, measurable), new PixelMask(width, height, undisturbed));
    }

    private static byte[] Interest(PixelRectangle? interest, int width, int height)
    {
        byte[] mask = new byte[checked(width * height)];
        if (interest is null)
        {
            Array.Fill(mask, (byte)1);
            return mask;
        }

        bool inside = interest.X >= 0 && interest.Y >= 0 && interest.Width >= 1 && interest.Height >= 1
            && (long)interest.X + interest.Width <= width && (long)interest.Y + interest.Height <= height;
        if (!inside)
            throw new InputDataException(FormattableString.Invariant($"region.interest_px = [{interest.X}, {interest.Y}, {interest.Width}, {interest.Height}] (x, y, width, height) does not lie inside the picture; keep it within {width} x {height} px."));
        for (int y = interest.Y; y < interest.Y + interest.Height; y++)
            mask.AsSpan((y * width) + interest.X, interest.Width).Fill(1);
        return mask;
    }

    private static void Clear(byte[] mask, IReadOnlyList<PixelPolygon> polygons, string key, int width, int height)
    {
        for (int number = 0; number < polygons.Count; number++)
        {
            string name = FormattableString.Invariant($"{key}, polygon {number + 1}");
            CheckCorners(polygons[number], name, width, height);
            if (PolygonRaster.Clear(mask, width, height, polygons[number]) == 0)
                throw new InputDataException($"{name} holds no pixel: its corners lie on one line or within one pixel; give corners in px, not in fractions of the picture.");
        }
    }

    private static void CheckCorners(PixelPolygon polygon, string name, int width, int height)
    {
        if (polygon.Corners.Count < 3)
            throw new InputDataException(FormattableString.Invariant($"{name} has {polygon.Corners.Count} corners; a polygon needs at least three."));
        foreach ((double x, double y) in polygon.Corners)
        {
            // Written so that NaN counts as outside.
            bool inside = x >= -0.5 && x <= width && y >= -0.5 && y <= height;
            if (!inside)
                throw new InputDataException(FormattableString.Invariant($"{name} has the corner [{x}, {y}] outside the picture of {width} x {height} px: give corners in px of the reference picture."));
        }
    }
}
