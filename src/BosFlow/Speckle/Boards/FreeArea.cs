namespace BosFlow.Speckle.Boards;

/// <summary>Where whole dots may lie: inside the pattern and outside the fiducials' white zones.</summary>
internal sealed class FreeArea
{
    private readonly BoardRectangle pattern;
    private readonly double[] zoneX;
    private readonly double[] zoneY;
    private readonly double halfZone;

    public FreeArea(BoardLayout layout)
    {
        pattern = layout.Pattern;
        zoneX = [.. layout.Fiducials.Select(fiducial => fiducial.X)];
        zoneY = [.. layout.Fiducials.Select(fiducial => fiducial.Y)];
        halfZone = layout.ZoneSide / 2;
    }

    /// <summary>Whether a disc lies whole in the free area.</summary>
    public bool Holds(double x, double y, double radius)
    {
        if (x - radius < pattern.Left || x + radius > pattern.Right || y - radius < pattern.Top || y + radius > pattern.Bottom)
            return false;
        // Zones lie along the border: most dots are further in than any zone reaches.
        double reach = (2 * halfZone) + radius;
        if (zoneX.Length == 0
            || (x > pattern.Left + reach && x < pattern.Right - reach && y > pattern.Top + reach && y < pattern.Bottom - reach))
            return true;
        for (int i = 0; i < zoneX.Length; i++)
        {
            double dx = Math.Max(0, Math.Abs(x - zoneX[i]) - halfZone);
            double dy = Math.Max(0, Math.Abs(y - zoneY[i]) - halfZone);
            if ((dx * dx) + (dy * dy) < radius * radius)
                return false;
        }

        return true;
    }

    /// <summary>Area of the places of centres of discs that <see cref="Holds"/>, m2; corners of zones taken as square, which makes it smaller by less than a disc a zone.</summary>
    public double CentreArea(double radius)
    {
        double area = Math.Max(0, pattern.Width - (2 * radius)) * Math.Max(0, pattern.Height - (2 * radius));
        for (int i = 0; i < zoneX.Length; i++)
        {
            area -= Overlap(zoneX[i], halfZone + radius, pattern.Left + radius, pattern.Right - radius)
                * Overlap(zoneY[i], halfZone + radius, pattern.Top + radius, pattern.Bottom - radius);
        }

        return area;
    }

    private static double Overlap(double centre, double half, double from, double to) =>
        Math.Max(0, Math.Min(centre + half, to) - Math.Max(centre - half, from));
}
