namespace BosFlow.Speckle.Boards;

/// <summary>Fiducials around the border of the pattern: in the corners and along the edges, so that the interior stays free for measuring.</summary>
internal static class FiducialRing
{
    /// <summary>Largest spacing along an edge, diameters of the smallest dot: at 2 to 3 px a dot a picture shows several whichever part it sees.</summary>
    public const double LargestSpacingDots = 250;

    // Fewer zones than this along an edge: corners only.
    private const double ZonesForThree = 5;

    // A shorter edge of three zones leaves one zone's width between two corners.
    private const double LeastZonesAlongAnEdge = 3;

    // Cells narrower than a dot are finer than what the board is made for.
    private const double LeastDotsPerCell = 1;
    private const double UsualDotsPerCell = 2;

    /// <summary>
    /// 16 times the largest dot, so that each of the 8 cells is two dots wide; where a small board has no room for it, the largest side that fits, in whole tenths of
    /// a millimetre, but no cell narrower than a dot.
    /// </summary>
    public static double DefaultSide(IReadOnlyList<DotSize> sizes, BoardRectangle pattern)
    {
        double cells = FiducialCode.Cells * sizes[0].DiameterMetres;
        double fitting = Math.Floor(LargestSide(pattern) * 1e4) / 1e4;
        return Math.Clamp(fitting, LeastDotsPerCell * cells, UsualDotsPerCell * cells);
    }

    /// <summary>One cell.</summary>
    public static double QuietZone(double side) => side / FiducialCode.Cells;

    /// <summary>Largest side that fits a pattern, m.</summary>
    public static double LargestSide(BoardRectangle pattern) =>
        Math.Min(pattern.Width, pattern.Height) / LeastZonesAlongAnEdge / (1 + (2.0 / FiducialCode.Cells));

    /// <summary>The ring, clockwise from the upper left corner, identities from 0.</summary>
    public static IReadOnlyList<Fiducial> Of(BoardRectangle pattern, double side, double smallestDot)
    {
        double zone = side + (2 * QuietZone(side));
        double spacing = Math.Max(LargestSpacingDots * smallestDot, ZonesForThree * zone);
        int across = CountAlong(pattern.Width, zone, spacing);
        int down = CountAlong(pattern.Height, zone, spacing);
        while ((2 * (across + down)) - 4 > FiducialCode.Count)
        {
            spacing *= 1.05;
            across = CountAlong(pattern.Width, zone, spacing);
            down = CountAlong(pattern.Height, zone, spacing);
        }

        return Place(pattern, zone, side, across, down);
    }

    private static int CountAlong(double length, double zone, double spacing)
    {
        if (length < ZonesForThree * zone)
            return 2;
        return Math.Max(3, (int)Math.Ceiling(Math.Min((length - zone) / spacing, FiducialCode.Count)) + 1);
    }

    private static List<Fiducial> Place(BoardRectangle pattern, double zone, double side, int across, int down)
    {
        var ring = new List<Fiducial>((2 * (across + down)) - 4);
        double Column(int i) => OnGrid(pattern.Left + (zone / 2) + (i * (pattern.Width - zone) / (across - 1)));
        double Row(int i) => OnGrid(pattern.Top + (zone / 2) + (i * (pattern.Height - zone) / (down - 1)));
        for (int i = 0; i < across - 1; i++)
            ring.Add(new Fiducial(ring.Count, Column(i), Row(0), side));
        for (int i = 0; i < down - 1; i++)
            ring.Add(new Fiducial(ring.Count, Column(across - 1), Row(i), side));
        for (int i = across - 1; i > 0; i--)
            ring.Add(new Fiducial(ring.Count, Column(i), Row(down - 1), side));
        for (int i = down - 1; i > 0; i--)
            ring.Add(new Fiducial(ring.Count, Column(0), Row(i), side));
        return ring;
    }

    private static double OnGrid(double metres) => Math.Round(metres * BoardMaker.StepsPerMetre) / BoardMaker.StepsPerMetre;
}
