namespace BosFlow.Speckle.Boards;

/// <summary>The dots of one size, sorted into cells at least as wide as the reach of a dot, so that a newcomer looks at nine cells only.</summary>
internal sealed class DotGrid
{
    private readonly double left;
    private readonly double top;
    private readonly double cellsPerMetre;
    private readonly int columns;
    private readonly int rows;

    // Last dot of each cell and the dot before each dot, both plus one: 0 = none.
    private readonly int[] last;
    private readonly List<(double X, double Y, int Before)> dots;

    /// <summary>Makes an empty grid.</summary>
    /// <param name="domain">Where dots may be.</param>
    /// <param name="reach">Largest distance at which <see cref="HasWithin"/> is asked, m.</param>
    /// <param name="expected">About how many dots will come: cells are not made much more numerous.</param>
    public DotGrid(BoardRectangle domain, double reach, int expected)
    {
        double cell = Math.Max(reach, Math.Sqrt(domain.Area / (2.0 * (expected + 8))));
        left = domain.Left;
        top = domain.Top;
        cellsPerMetre = 1 / cell;
        // One more on every side: a neighbour always exists.
        columns = (int)(domain.Width * cellsPerMetre) + 4;
        rows = (int)(domain.Height * cellsPerMetre) + 4;
        last = new int[checked(columns * rows)];
        dots = new List<(double X, double Y, int Before)>(expected);
    }

    public void Add(double x, double y)
    {
        int cell = CellOf(x, y);
        dots.Add((x, y, last[cell]));
        last[cell] = dots.Count;
    }

    /// <summary>Whether a dot's centre lies nearer than a distance; not more than the reach.</summary>
    public bool HasWithin(double x, double y, double distance)
    {
        double square = distance * distance;
        int centre = CellOf(x, y);
        for (int row = centre - columns; row <= centre + columns; row += columns)
        {
            for (int cell = row - 1; cell <= row + 1; cell++)
            {
                int at = last[cell];
                while (at != 0)
                {
                    (double otherX, double otherY, int before) = dots[at - 1];
                    double dx = otherX - x;
                    double dy = otherY - y;
                    if ((dx * dx) + (dy * dy) < square)
                        return true;
                    at = before;
                }
            }
        }

        return false;
    }

    private int CellOf(double x, double y) =>
        (((int)((y - top) * cellsPerMetre) + 1) * columns) + (int)((x - left) * cellsPerMetre) + 1;
}
