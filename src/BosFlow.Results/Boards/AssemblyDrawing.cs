using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Draws the page that shows how the sheets of a tiled board go together.</summary>
internal static class AssemblyDrawing
{
    private const double LineHeight = 1.35;
    private const byte StripGrey = 215;

    // Letters of 3 mm on the narrow side of an A4 page, and in proportion on other paper.
    private const double LettersPerWidth = 70;

    /// <summary>Draws the page.</summary>
    public static void Draw(IDrawingSurface surface, BoardPrint print)
    {
        SheetPlan plan = print.Plan;
        double size = Math.Min(plan.Paper.WidthMetres, plan.Paper.HeightMetres) / LettersPerWidth;
        double margin = Math.Max(plan.MarginMetres, SheetLabel.NeverPrinted) + size;
        double width = plan.Paper.WidthMetres - (2 * margin);
        double y = margin;
        y = Paragraph(surface, $"Assembly of the board {BoardWords.Area(print.Board.Settings.WidthMetres, print.Board.Settings.HeightMetres)}", margin, y, 1.6 * size, width);
        y = Paragraph(surface, $"{plan.Sheets.Count} sheets of {plan.Paper.Name}: {plan.Columns} across, {plan.Rows} down. {BoardWords.Title(print.Board)}.", margin, y, size, width);
        List<string> words = [.. AssemblyWords.Steps(plan).Select((step, i) => $"{i + 1}. {step}"), .. AssemblyWords.Cautions.Select(caution => $"! {caution}")];
        double textHeight = words.Sum(text => (TextMeasure.Wrap(text, size, width).Count * LineHeight * size) + (0.4 * size));
        double room = plan.Paper.HeightMetres - margin - textHeight - y - (4 * size);
        y = Sketch(surface, plan, new BoardRectangle(margin, y + size, width, room), size) + (1.5 * size);
        foreach (string text in words)
            y = Paragraph(surface, text, margin, y, size, width);
    }

    private static double Paragraph(IDrawingSurface surface, string text, double x, double y, double size, double width)
    {
        foreach (string line in TextMeasure.Wrap(text, size, width))
        {
            surface.Text(new SheetText(line, new SheetPoint(x, y + size), size));
            y += LineHeight * size;
        }

        return y + (0.4 * size);
    }

    private static double Sketch(IDrawingSurface surface, SheetPlan plan, BoardRectangle area, double size)
    {
        double boardWidth = plan.Sheets.Max(sheet => sheet.Net.Right);
        double boardHeight = plan.Sheets.Max(sheet => sheet.Net.Bottom);
        // Room for the board's height, written along its left side.
        double left = area.Left + (1.6 * size);
        double scale = Math.Min((area.Width - (1.6 * size)) / boardWidth, (area.Height - (1.6 * size)) / boardHeight);
        double top = area.Top + (1.6 * size);
        BoardRectangle Small(BoardRectangle part) => new(left + (part.Left * scale), top + (part.Top * scale), part.Width * scale, part.Height * scale);
        surface.Text(new SheetText($"{BoardWords.Millimetres(boardWidth)} mm", new SheetPoint(left + (boardWidth * scale / 2), top - (0.5 * size)), size) { Align = TextAlign.Middle });
        surface.Text(new SheetText($"{BoardWords.Millimetres(boardHeight)} mm", new SheetPoint(left - (0.5 * size), top + (boardHeight * scale / 2)), size) { Align = TextAlign.Middle, IsUpright = true });
        foreach (Sheet sheet in plan.Sheets)
            Strips(surface, Small(sheet.Net), Small(sheet.Printed));
        foreach (Sheet sheet in plan.Sheets)
        {
            BoardRectangle net = Small(sheet.Net);
            Frame(surface, net, size / 12);
            Name(surface, sheet, net, size);
        }

        return top + (boardHeight * scale);
    }

    // What the neighbours cover.
    private static void Strips(IDrawingSurface surface, BoardRectangle net, BoardRectangle printed)
    {
        if (printed.Right > net.Right)
            surface.Fill(new BoardRectangle(net.Right, printed.Top, printed.Right - net.Right, printed.Height), StripGrey);
        if (printed.Bottom > net.Bottom)
            surface.Fill(new BoardRectangle(printed.Left, net.Bottom, printed.Width, printed.Bottom - net.Bottom), StripGrey);
    }

    private static void Name(IDrawingSurface surface, Sheet sheet, BoardRectangle net, double size)
    {
        // Whole tenths: no one reads more from a rule.
        string area = FormattableString.Invariant($"{sheet.Net.Width * 1e3:0.#} x {sheet.Net.Height * 1e3:0.#} mm");
        double x = net.Left + (net.Width / 2);
        double middle = net.Top + (net.Height / 2);
        double letters = Math.Min(size, Math.Min(0.9 * net.Width / TextMeasure.Width(area, 1), net.Height / 5));
        surface.Text(new SheetText(sheet.Name, new SheetPoint(x, middle), 1.6 * letters) { Align = TextAlign.Middle });
        surface.Text(new SheetText(area, new SheetPoint(x, middle + (1.5 * letters)), letters) { Align = TextAlign.Middle });
    }

    private static void Frame(IDrawingSurface surface, BoardRectangle area, double width)
    {
        SheetPoint[] corners = [new(area.Left, area.Top), new(area.Right, area.Top), new(area.Right, area.Bottom), new(area.Left, area.Bottom)];
        for (int i = 0; i < corners.Length; i++)
            surface.Line(corners[i], corners[(i + 1) % corners.Length], width, BoardGreys.Black);
    }
}
