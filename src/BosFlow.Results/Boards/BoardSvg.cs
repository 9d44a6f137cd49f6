using System.Globalization;
using System.Security;
using System.Text;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Writes a board as SVG, one document for each sheet: width and height in mm, its unit is the millimetre, four decimals.</summary>
public static class BoardSvg
{
    /// <summary>Writes one sheet.</summary>
    /// <param name="stream">Receives UTF-8; the same print gives the same bytes.</param>
    /// <param name="print">Board and sheets.</param>
    /// <param name="sheet">One of the sheets.</param>
    /// <param name="cancellationToken">Ends the work; what was written is then of no use.</param>
    public static void WriteSheet(Stream stream, BoardPrint print, Sheet sheet, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(print);
        ArgumentNullException.ThrowIfNull(sheet);
        string title = print.IsTiled ? $"{BoardWords.Title(print.Board)}, sheet {sheet.Name}" : BoardWords.Title(print.Board);
        Write(stream, print.Plan.Paper.WidthMetres, print.Plan.Paper.HeightMetres, title, writer =>
            SheetDrawing.Draw(new SvgSurface(writer), print, sheet, SheetDrawing.Dots(print, sheet), cancellationToken));
    }

    /// <summary>Writes the assembly sketch of a tiled board.</summary>
    /// <param name="stream">Receives UTF-8.</param>
    /// <param name="print">Board and sheets.</param>
    public static void WriteAssembly(Stream stream, BoardPrint print)
    {
        ArgumentNullException.ThrowIfNull(print);
        Write(stream, print.Plan.Paper.WidthMetres, print.Plan.Paper.HeightMetres, $"{BoardWords.Title(print.Board)}, assembly", writer =>
            AssemblyDrawing.Draw(new SvgSurface(writer), print));
    }

    /// <summary>Writes a document of a size with a title.</summary>
    internal static void Write(Stream stream, double width, double height, string title, Action<TextWriter> content)
    {
        ArgumentNullException.ThrowIfNull(stream);
        using var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true) { NewLine = "\n" };
        string w = SvgNumber.Of(width);
        string h = SvgNumber.Of(height);
        writer.Write(string.Create(CultureInfo.InvariantCulture, $"""
            <?xml version="1.0" encoding="UTF-8"?>
            <svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">
            <title>{SecurityElement.Escape(title)}</title>

            """));
        content(writer);
        writer.Write("</svg>\n");
    }
}
