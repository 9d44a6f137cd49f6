namespace BosFlow.Speckle.Boards;

/// <summary>How a board lies on sheets of paper.</summary>
public sealed record SheetPlan
{
    /// <summary>Paper, turned where the sheets lie wide.</summary>
    public required PaperSize Paper { get; init; }

    /// <summary>Strip along the edges that printers leave empty, m.</summary>
    public required double MarginMetres { get; init; }

    /// <summary>How far a sheet's print goes on below its neighbour, m; 0 on a single sheet.</summary>
    public required double OverlapMetres { get; init; }

    /// <summary>Number of columns of sheets.</summary>
    public required int Columns { get; init; }

    /// <summary>Number of rows of sheets.</summary>
    public required int Rows { get; init; }

    /// <summary>The sheets, row by row.</summary>
    public required IReadOnlyList<Sheet> Sheets { get; init; }

    /// <summary>Longest ruler that lies whole on the first sheet (the first of the last row for the horizontal one, as large), beside the edge strips, m; a multiple of 10 mm, at most 200 mm.</summary>
    public double LongestRulerMetres => BoardLayout.LongestRulerOn(Sheets[0].Net);
}
