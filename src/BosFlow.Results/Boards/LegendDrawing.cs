using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Writes the legend into the place that the board keeps for it.</summary>
internal static class LegendDrawing
{
    private const double Largest = 2.5e-3;
    private const double Smallest = 1.2e-3;
    private const double Step = 0.1e-3;
    private const double LineHeight = 1.25;
    private const string Between = " \u00b7 ";

    /// <summary>Writes the legend in the largest letters that fit.</summary>
    public static void Draw(IDrawingSurface surface, BoardPrint print, SheetFrame frame)
    {
        // On the first sheet of the last row alone, so that no word is cut in two.
        BoardRectangle legend = print.Board.Legend;
        double right = print.Plan.Sheets.First(sheet => sheet.Row == print.Plan.Rows - 1).Net.Right;
        BoardRectangle area = frame.Place(legend with { Width = Math.Min(legend.Right, right) - legend.Left });
        IReadOnlyList<string> words = LegendWords.Of(print);
        double size = Largest;
        List<string> lines = TextMeasure.Wrap(words, Between, size, area.Width);
        while (size > Smallest && !Fits(lines, size, area))
        {
            size -= Step;
            lines = TextMeasure.Wrap(words, Between, size, area.Width);
        }

        for (int i = 0; i < lines.Count; i++)
            surface.Text(new SheetText(lines[i], new SheetPoint(area.Left, area.Top + (size * ((i * LineHeight) + 0.9))), size));
    }

    private static bool Fits(List<string> lines, double size, BoardRectangle area) =>
        lines.Count * LineHeight * size <= area.Height && lines.All(line => TextMeasure.Width(line, size) <= area.Width);
}
