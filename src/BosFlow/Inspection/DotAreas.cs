using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Areas of the dots in a photo, from the darkness (or brightness) summed over each one's cell.</summary>
internal sealed class DotAreas
{
    private DotAreas(double[] areas, double[] cellAreas, bool[] mixed)
    {
        Areas = areas;
        CellAreas = cellAreas;
        Mixed = mixed;
    }

    /// <summary>Area of each dot seen, px2: pixels times the share by which they are ink.</summary>
    public double[] Areas { get; }

    /// <summary>Area of its cell, px2.</summary>
    public double[] CellAreas { get; }

    /// <summary>Whether its cell touches that of a dot of the other tone: blur of the two then does not cancel.</summary>
    public bool[] Mixed { get; }

    /// <summary>Sums the cells.</summary>
    public static DotAreas Of(Board board, LightPicture picture, SeenBoard seen, DotCells cells, BoardLight light)
    {
        int count = seen.Dots.Count;
        double[] areas = new double[count];
        double[] cellAreas = new double[count];
        bool[] mixed = new bool[count];
        bool[] isLight = [.. seen.Dots.Select(dot => board.Dots[dot.Index].IsLight)];
        for (int at = 0; at < seen.Pattern.Length; at++)
        {
            int owner = cells.Owner(at);
            if (owner == DotCells.None)
                continue;
            areas[owner] += Share(picture[at], light, at % picture.Width, at / picture.Width, isLight[owner]);
            cellAreas[owner]++;
            Meet(owner, at + 1 < seen.Pattern.Length ? cells.Owner(at + 1) : DotCells.None);
            Meet(owner, at + picture.Width < seen.Pattern.Length ? cells.Owner(at + picture.Width) : DotCells.None);
        }

        return new DotAreas(areas, cellAreas, mixed);

        void Meet(int one, int other)
        {
            if (other != DotCells.None && isLight[one] != isLight[other])
                (mixed[one], mixed[other]) = (true, true);
        }
    }

    /// <summary>Covered area of the whole pattern in the photo and the pattern's own, px2; only for boards of one tone.</summary>
    public static (double Covered, double Whole) Total(LightPicture picture, SeenBoard seen, BoardLight light, bool isLight)
    {
        double covered = 0;
        double whole = 0;
        for (int at = 0; at < seen.Pattern.Length; at++)
        {
            if (!seen.Pattern[at])
                continue;
            covered += Share(picture[at], light, at % picture.Width, at / picture.Width, isLight);
            whole++;
        }

        return (covered, whole);
    }

    // 0 on the ground, 1 on a dot.
    private static double Share(float level, BoardLight light, int x, int y, bool isLight)
    {
        double ground = light.Ground(x, y);
        return (1 - (level / ground)) / (1 - light.DotRatio(isLight));
    }
}
