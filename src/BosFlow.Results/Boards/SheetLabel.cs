using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Writes on a sheet of a tiled board which one it is and what lies around it.</summary>
internal static class SheetLabel
{
    /// <summary>Strip along the edges of paper that office printers leave empty, m; marks keep away from it. Common practice, no source.</summary>
    public const double NeverPrinted = 5e-3;

    private const double Size = 2.4e-3;

    // Letters reach from a fifth of their size below the base line to four fifths above it.
    private const double Below = 0.2 * Size;
    private const double Above = 0.8 * Size;
    private const double Gap = 0.4e-3;

    /// <summary>Writes the label below the print; into the strip that the neighbour covers where there is no room below.</summary>
    public static void Draw(IDrawingSurface surface, BoardPrint print, Sheet sheet)
    {
        BoardRectangle printed = SheetFrame.Of(sheet).Place(sheet.Printed);
        BoardRectangle net = SheetFrame.Of(sheet).Place(sheet.Net);
        // Beside the crop marks at the corners.
        double x = net.Left + 6e-3;
        double room = print.Plan.Paper.HeightMetres - NeverPrinted - printed.Bottom;
        double overlap = printed.Bottom - net.Bottom;
        double baseline = printed.Bottom + Gap + Above;
        string words = Words(print.Plan, sheet);
        if (room < Gap + Above + Below && overlap > Size + (2 * Gap))
        {
            baseline = printed.Bottom - Gap - Below;
            surface.Fill(new BoardRectangle(x - Gap, baseline - Above - Gap, TextMeasure.Width(words, Size) + (2 * Gap), Size + Gap), BoardGreys.White);
        }

        surface.Text(new SheetText(words, new SheetPoint(x, baseline), Size));
    }

    /// <summary>Name of a sheet and of its neighbours.</summary>
    public static string Words(SheetPlan plan, Sheet sheet)
    {
        string Neighbour(string side, int column, int row) =>
            plan.Sheets.FirstOrDefault(other => other.Column == column && other.Row == row) is { } other ? $", {side} {other.Name}" : string.Empty;
        return $"Sheet {sheet.Name}"
            + Neighbour("left", sheet.Column - 1, sheet.Row)
            + Neighbour("right", sheet.Column + 1, sheet.Row)
            + Neighbour("above", sheet.Column, sheet.Row - 1)
            + Neighbour("below", sheet.Column, sheet.Row + 1);
    }
}
