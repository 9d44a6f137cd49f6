using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Benchmarks.Printing;

/// <summary>The boards that are measured.</summary>
internal static class LargeBoard
{
    private const double Margin = 0.008;
    private const double Overlap = 0.010;

    /// <summary>Settings of a board that fills a sheet.</summary>
    public static BoardSettings Filling(string paper, double dotMillimetres, double? gapMillimetres)
    {
        (double width, double height) = SheetPlanner.Printable(PaperSize.Find(paper)!, Margin);
        return new BoardSettings { WidthMetres = width, HeightMetres = height, Sizes = [new DotSize(dotMillimetres / 1000, 1)], Seed = 5, LeastGapMetres = gapMillimetres / 1000 };
    }

    /// <summary>Settings of a board for several sheets of A4.</summary>
    public static BoardSettings Tiled() => new() { WidthMetres = 0.5, HeightMetres = 0.4, Sizes = [new DotSize(0.001, 1)], Seed = 5, LongestRulerMetres = 0.14 };

    /// <summary>A board on its sheets.</summary>
    public static BoardPrint On(Board board, string paper) => new()
    {
        Board = board,
        Plan = SheetPlanner.Plan(board.Settings.WidthMetres, board.Settings.HeightMetres, PaperSize.Find(paper)!, landscape: false, Margin, Overlap),
        Date = new DateOnly(2026, 11, 25),
        ProgramVersion = "measured",
    };
}
