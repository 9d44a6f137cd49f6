namespace BosFlow.Results.Plans;

/// <summary>Lines of equal value through a grid of numbers.</summary>
internal static class ContourLines
{
    /// <summary>Pieces of the line of one value: in each triangle between a cell's corners and its middle, linear between them; none where a corner is not known.</summary>
    /// <param name="values">Values by row and column.</param>
    /// <param name="level">The value of the line.</param>
    /// <returns>Both ends of each piece, in columns and rows.</returns>
    public static IEnumerable<(double X1, double Y1, double X2, double Y2)> Of(double[][] values, double level)
    {
        for (int row = 0; row + 1 < values.Length; row++)
        {
            for (int column = 0; column + 1 < values[row].Length; column++)
            {
                (double X, double Y, double Value)[] corners =
                [
                    (column, row, values[row][column]), (column + 1, row, values[row][column + 1]),
                    (column + 1, row + 1, values[row + 1][column + 1]), (column, row + 1, values[row + 1][column]),
                ];
                if (corners.Any(corner => !double.IsFinite(corner.Value)))
                    continue;
                (double X, double Y, double Value) middle = (column + 0.5, row + 0.5, corners.Average(corner => corner.Value));
                for (int i = 0; i < 4; i++)
                {
                    if (Piece([corners[i], corners[(i + 1) % 4], middle], level) is { } piece)
                        yield return piece;
                }
            }
        }
    }

    // A level that meets a corner exactly counts it as above, so that every triangle has no crossing or two.
    private static (double X1, double Y1, double X2, double Y2)? Piece((double X, double Y, double Value)[] triangle, double level)
    {
        List<(double X, double Y)> ends = [];
        for (int i = 0; i < 3; i++)
        {
            (double X, double Y, double Value) a = triangle[i];
            (double X, double Y, double Value) b = triangle[(i + 1) % 3];
            if ((a.Value >= level) == (b.Value >= level))
                continue;
            double part = (level - a.Value) / (b.Value - a.Value);
            ends.Add((a.X + (part * (b.X - a.X)), a.Y + (part * (b.Y - a.Y))));
        }

        return ends.Count == 2 ? (ends[0].X, ends[0].Y, ends[1].X, ends[1].Y) : null;
    }
}
