using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Marks at the corners of what a sheet shows when the board is assembled: along them it is cut, or its neighbour laid.</summary>
internal static class CropMarks
{
    private const double Length = 4e-3;
    private const double Gap = 0.5e-3;
    private const double ShortestOutside = 1.5e-3;
    private const double LineWidth = 0.1e-3;

    /// <summary>Draws the eight marks of a sheet: where its print goes on below a neighbour within that strip, else outside the print, and along the edge where the paper ends there.</summary>
    public static void Draw(IDrawingSurface surface, BoardPrint print, Sheet sheet)
    {
        SheetFrame frame = SheetFrame.Of(sheet);
        BoardRectangle net = frame.Place(sheet.Net);
        BoardRectangle printed = frame.Place(sheet.Printed);
        PaperSize paper = print.Plan.Paper;
        (double From, double To) left = Reach(net.Left - printed.Left, printed.Left);
        (double From, double To) right = Reach(printed.Right - net.Right, paper.WidthMetres - printed.Right);
        (double From, double To) top = Reach(net.Top - printed.Top, printed.Top);
        (double From, double To) bottom = Reach(printed.Bottom - net.Bottom, paper.HeightMetres - printed.Bottom);
        byte grey = BoardGreys.Mark(print.Board.Settings.Tones);
        foreach (double y in (double[])[net.Top, net.Bottom])
        {
            surface.Line(new SheetPoint(net.Left - left.From, y), new SheetPoint(net.Left - left.To, y), LineWidth, grey);
            surface.Line(new SheetPoint(net.Right + right.From, y), new SheetPoint(net.Right + right.To, y), LineWidth, grey);
        }

        foreach (double x in (double[])[net.Left, net.Right])
        {
            surface.Line(new SheetPoint(x, net.Top - top.From), new SheetPoint(x, net.Top - top.To), LineWidth, grey);
            surface.Line(new SheetPoint(x, net.Bottom + bottom.From), new SheetPoint(x, net.Bottom + bottom.To), LineWidth, grey);
        }
    }

    // From where to where a mark reaches outward from the corner; negative is inward.
    private static (double From, double To) Reach(double overlap, double toPaperEdge)
    {
        if (overlap > ShortestOutside)
            return (0, Math.Min(overlap, Length));
        double room = toPaperEdge - SheetLabel.NeverPrinted;
        return room >= ShortestOutside ? (Gap, Math.Min(room, Length)) : (0, -Length);
    }
}
