namespace BosFlow.Speckle;

/// <summary>Cells at least as large as the least gap, so that only the neighbours of a new dot are looked at.</summary>
internal sealed class GapGrid
{
    private readonly double gap;
    private readonly double cell;
    private readonly int columns;
    private readonly int rows;
    private readonly List<(double X, double Y)>?[] cells;

    public GapGrid(double width, double height, double gap)
    {
        this.gap = gap;
        // A tiny gap must not ask for a huge number of cells.
        cell = Math.Max(gap, 1);
        columns = (int)(width / cell) + 1;
        rows = (int)(height / cell) + 1;
        cells = new List<(double X, double Y)>?[columns * rows];
    }

    /// <summary>Adds a point unless another lies nearer than the gap.</summary>
    public bool TryAdd(double x, double y)
    {
        if (gap <= 0)
            return true;
        int column = (int)(x / cell);
        int row = (int)(y / cell);
        for (int r = Math.Max(0, row - 1); r <= Math.Min(rows - 1, row + 1); r++)
        {
            for (int c = Math.Max(0, column - 1); c <= Math.Min(columns - 1, column + 1); c++)
            {
                if (IsTooNear(cells[(r * columns) + c], x, y))
                    return false;
            }
        }

        (cells[(row * columns) + column] ??= []).Add((x, y));
        return true;
    }

    private bool IsTooNear(List<(double X, double Y)>? points, double x, double y)
    {
        if (points is null)
            return false;
        foreach ((double otherX, double otherY) in points)
        {
            double dx = otherX - x;
            double dy = otherY - y;
            if ((dx * dx) + (dy * dy) < gap * gap)
                return true;
        }

        return false;
    }
}
