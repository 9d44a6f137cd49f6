namespace BosFlow.Speckle.Boards;

/// <summary>The dots of one size, sorted into cells, so that a newcomer looks at its surroundings only. Positions are whole steps from the corner of the domain.</summary>
/// <remarks>
/// Where dots lie close, a cell's diagonal is the least distance of two centres: it holds one at most, and the next 5 x 5 cells hold all that matter.
/// Where dots of this size are few, cells are larger, hold several, and memory follows the number of dots instead of the area.
/// </remarks>
internal sealed class DotGrid
{
    private readonly double cellsPerStep;
    private readonly int columns;
    private readonly int around;
    private readonly Cell[] cells;

    // Second and further dots of a cell.
    private readonly List<Cell> further = [];

    /// <summary>Makes an empty grid.</summary>
    /// <param name="width">Width of the domain, steps.</param>
    /// <param name="height">Height of the domain, steps.</param>
    /// <param name="reach">Largest distance at which <see cref="HasWithin"/> is asked, steps; no two dots come nearer.</param>
    /// <param name="expected">About how many dots will come: cells are not made much more numerous than four times that.</param>
    public DotGrid(long width, long height, double reach, double expected)
    {
        double cell = Math.Max(reach / Math.Sqrt(2), Math.Sqrt((double)width * height / (4 * (expected + 8))));
        cellsPerStep = 1 / cell;
        around = cell >= reach ? 1 : 2;
        // A border of empty cells: a neighbour always exists.
        columns = (int)(width * cellsPerStep) + 1 + (2 * around);
        int rows = (int)(height * cellsPerStep) + 1 + (2 * around);
        cells = new Cell[checked(columns * rows)];
    }

    public void Add(int x, int y)
    {
        ref Cell cell = ref cells[CellOf(x, y)];
        if (cell.Next == 0)
        {
            cell = new Cell(x, y, 1);
            return;
        }

        further.Add(cell);
        cell = new Cell(x, y, further.Count + 1);
    }

    /// <summary>Whether a dot's centre lies nearer than a distance, steps; not more than the reach.</summary>
    public bool HasWithin(int x, int y, double distance)
    {
        double square = distance * distance;
        int centre = CellOf(x, y);
        // Most throws that fail do so in their own cell.
        if (IsNear(in cells[centre], x, y, square))
            return true;
        for (int row = -around; row <= around; row++)
        {
            // The corners of 5 x 5 cells are a whole reach away.
            int aside = Math.Abs(row) == 2 ? 1 : around;
            foreach (ref readonly Cell cell in cells.AsSpan(centre + (row * columns) - aside, (2 * aside) + 1))
            {
                if (IsNear(in cell, x, y, square))
                    return true;
            }
        }

        return false;
    }

    private bool IsNear(in Cell first, int x, int y, double square)
    {
        Cell cell = first;
        while (cell.Next != 0)
        {
            long dx = cell.X - x;
            long dy = cell.Y - y;
            if ((dx * dx) + (dy * dy) < square)
                return true;
            if (cell.Next == 1)
                return false;
            cell = further[cell.Next - 2];
        }

        return false;
    }

    private int CellOf(int x, int y) => (((int)(y * cellsPerStep) + around) * columns) + (int)(x * cellsPerStep) + around;

    // Next: 0 = the cell is empty, 1 = no further dot in it, else 2 + place of the dot that was there before.
    private readonly record struct Cell(int X, int Y, int Next);
}
