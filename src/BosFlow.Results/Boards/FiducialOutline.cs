namespace BosFlow.Results.Boards;

/// <summary>Outlines of the black cells of a fiducial: neighbours are one area, so that no line shows between them and no edge is cut twice.</summary>
internal static class FiducialOutline
{
    /// <summary>Closed outlines in cells, from the mark's upper left corner.</summary>
    /// <param name="cells">Cells along a side.</param>
    /// <param name="isBlack">Whether the cell of a row and column is black.</param>
    /// <returns>Corners of each outline, in order, without points on straight lines; cells that only touch at a corner have outlines of their own.</returns>
    public static IReadOnlyList<IReadOnlyList<(int X, int Y)>> Trace(int cells, Func<int, int, bool> isBlack)
    {
        Dictionary<(int X, int Y), List<(int X, int Y)>> edges = Edges(cells, isBlack);
        List<IReadOnlyList<(int X, int Y)>> outlines = [];
        for (int y = 0; y <= cells; y++)
        {
            for (int x = 0; x <= cells; x++)
            {
                while (edges.TryGetValue((x, y), out List<(int X, int Y)>? left) && left.Count > 0)
                    outlines.Add(Follow((x, y), edges));
            }
        }

        return outlines;
    }

    // Edges between black and white, by where they begin, with black on the right of whoever walks along them.
    private static Dictionary<(int X, int Y), List<(int X, int Y)>> Edges(int cells, Func<int, int, bool> isBlack)
    {
        bool Black(int row, int column) => row >= 0 && column >= 0 && row < cells && column < cells && isBlack(row, column);
        Dictionary<(int X, int Y), List<(int X, int Y)>> edges = [];
        void Add(int x, int y, int toX, int toY)
        {
            if (!edges.TryGetValue((x, y), out List<(int X, int Y)>? from))
                edges[(x, y)] = from = [];
            from.Add((toX, toY));
        }

        for (int row = 0; row < cells; row++)
        {
            for (int column = 0; column < cells; column++)
            {
                if (!Black(row, column))
                    continue;
                if (!Black(row - 1, column))
                    Add(column, row, column + 1, row);
                if (!Black(row, column + 1))
                    Add(column + 1, row, column + 1, row + 1);
                if (!Black(row + 1, column))
                    Add(column + 1, row + 1, column, row + 1);
                if (!Black(row, column - 1))
                    Add(column, row + 1, column, row);
            }
        }

        return edges;
    }

    private static List<(int X, int Y)> Follow((int X, int Y) start, Dictionary<(int X, int Y), List<(int X, int Y)>> edges)
    {
        List<(int X, int Y)> corners = [];
        (int X, int Y) at = start;
        (int X, int Y) step = (0, 0);
        (int X, int Y) first = (0, 0);
        do
        {
            (int X, int Y) next = TakeNext(at, step, edges[at]);
            (int X, int Y) taken = (next.X - at.X, next.Y - at.Y);
            if (corners.Count == 0)
                first = taken;
            if (taken != step)
                corners.Add(at);
            (at, step) = (next, taken);
        }
        while (at != start);
        if (step == first)
            corners.RemoveAt(0);
        return corners;
    }

    // Where two cells touch at a corner two edges go on; the turn to the right stays with the cell one came along.
    private static (int X, int Y) TakeNext((int X, int Y) at, (int X, int Y) step, List<(int X, int Y)> choices)
    {
        (int X, int Y) right = (at.X - step.Y, at.Y + step.X);
        int index = Math.Max(0, choices.IndexOf(right));
        (int X, int Y) next = choices[index];
        choices.RemoveAt(index);
        return next;
    }
}
