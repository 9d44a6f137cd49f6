namespace BosFlow.Speckle.Boards;

/// <summary>Lays a board on sheets of paper: one sheet where it fits, else tiles of equal size.</summary>
public static class SheetPlanner
{
    /// <summary>Largest number of sheets.</summary>
    public const int MostSheets = 400;

    // Lengths that differ by less are equal: a board made to fill a sheet must fit it.
    private const double Slack = 1e-7;

    /// <summary>Part of a sheet that a printer can print on: what one board without tiles can be at most.</summary>
    /// <param name="paper">The paper, turned as it is used.</param>
    /// <param name="marginMetres">Strip along the edges that the printer leaves empty, m.</param>
    /// <returns>Width and height, m; zero or less where the margins leave no room.</returns>
    public static (double Width, double Height) Printable(PaperSize paper, double marginMetres)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return (paper.WidthMetres - (2 * marginMetres), paper.HeightMetres - (2 * marginMetres));
    }

    /// <summary>Lays out the sheets.</summary>
    /// <param name="boardWidth">Width of the whole board, m.</param>
    /// <param name="boardHeight">Height of the whole board, m.</param>
    /// <param name="paper">The paper, upright.</param>
    /// <param name="landscape">Whether the sheets lie wide; null = whichever needs fewer sheets, upright where it is the same.</param>
    /// <param name="marginMetres">Strip along the edges that printers leave empty, m.</param>
    /// <param name="overlapMetres">How far a sheet's print goes on under its right and lower neighbour, m; without meaning for a single sheet.</param>
    /// <returns>The plan. The parts of the board that the sheets show (<see cref="Sheet.Net"/>) meet without gap or overlap: neighbours share the very same edge.</returns>
    /// <exception cref="ConfigurationException">The board cannot be laid out; one sentence a problem.</exception>
    public static SheetPlan Plan(double boardWidth, double boardHeight, PaperSize paper, bool? landscape, double marginMetres, double overlapMetres)
    {
        ArgumentNullException.ThrowIfNull(paper);
        List<string> problems = [.. Problems(boardWidth, boardHeight, paper, marginMetres, overlapMetres)];
        if (problems.Count > 0)
            throw new ConfigurationException(problems);

        Candidate upright = CountSheets(boardWidth, boardHeight, paper, marginMetres, overlapMetres);
        Candidate wide = CountSheets(boardWidth, boardHeight, paper.Turned, marginMetres, overlapMetres);
        bool isWide = landscape ?? (wide.Sheets < upright.Sheets);
        Candidate chosen = isWide ? wide : upright;
        if (chosen.Sheets > MostSheets)
        {
            throw new ConfigurationException([FormattableString.Invariant(
                $"A board of {Mm(boardWidth)} mm x {Mm(boardHeight)} mm takes {chosen.Sheets} sheets of {paper.Name}; at most {MostSheets} are laid out: choose larger paper.")]);
        }

        return PlanOf(boardWidth, boardHeight, isWide ? paper.Turned : paper, marginMetres, overlapMetres, chosen);
    }

    private static IEnumerable<string> Problems(double boardWidth, double boardHeight, PaperSize paper, double margin, double overlap)
    {
        if (!(boardWidth > 0 && boardHeight > 0 && double.IsFinite(boardWidth) && double.IsFinite(boardHeight)))
            yield return FormattableString.Invariant($"The board is {Mm(boardWidth)} mm x {Mm(boardHeight)} mm; both sides must be greater than 0 mm.");
        if (!(margin >= 0 && margin < paper.WidthMetres / 2))
            yield return FormattableString.Invariant($"Margins of {Mm(margin)} mm leave no room on {paper.Name}; they must be 0 mm or more and below {Mm(paper.WidthMetres / 2)} mm.");
        else if (!(overlap >= 0 && overlap < paper.WidthMetres - (2 * margin)))
            yield return FormattableString.Invariant($"The overlap is {Mm(overlap)} mm; it must be 0 mm or more and below the {Mm(paper.WidthMetres - (2 * margin))} mm that the margins leave on {paper.Name}.");
    }

    private static Candidate CountSheets(double boardWidth, double boardHeight, PaperSize paper, double margin, double overlap)
    {
        (double width, double height) = Printable(paper, margin);
        return new Candidate(CountAlong(boardWidth, width, overlap), CountAlong(boardHeight, height, overlap));
    }

    // All sheets but the last carry an overlap: n sheets of room reach n * room - (n - 1) * overlap.
    private static double CountAlong(double length, double room, double overlap) =>
        Math.Max(1, Math.Ceiling((length - overlap - Slack) / (room - overlap)));

    private static SheetPlan PlanOf(double boardWidth, double boardHeight, PaperSize paper, double margin, double overlap, Candidate grid)
    {
        int columns = (int)grid.Columns;
        int rows = (int)grid.Rows;
        double[] x = Edges(boardWidth, columns, overlap);
        double[] y = Edges(boardHeight, rows, overlap);
        var sheets = new List<Sheet>(columns * rows);
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                var net = new BoardRectangle(x[column], y[row], x[column + 1] - x[column], y[row + 1] - y[row]);
                var printed = new BoardRectangle(
                    net.Left, net.Top, net.Width + (column < columns - 1 ? overlap : 0), net.Height + (row < rows - 1 ? overlap : 0));
                sheets.Add(new Sheet(column, row, net, printed, (paper.WidthMetres - printed.Width) / 2, (paper.HeightMetres - printed.Height) / 2));
            }
        }

        return new SheetPlan
        {
            Paper = paper,
            MarginMetres = margin,
            OverlapMetres = sheets.Count == 1 ? 0 : overlap,
            Columns = columns,
            Rows = rows,
            Sheets = sheets,
        };
    }

    // Every sheet prints the same length: nets are equal but the last, which has no overlap to carry and is longer by it.
    private static double[] Edges(double length, int count, double overlap)
    {
        double printed = (length + ((count - 1) * overlap)) / count;
        var edges = new double[count + 1];
        for (int i = 0; i < count; i++)
            edges[i] = i * (printed - overlap);
        edges[count] = length;
        return edges;
    }

    private static string Mm(double metres) => (metres * 1000).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture);

    // Floating point: an impossible request may need more sheets than an integer holds.
    private readonly record struct Candidate(double Columns, double Rows)
    {
        public double Sheets => Columns * Rows;
    }
}
