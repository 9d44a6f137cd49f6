using BosFlow.Speckle.Boards;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>Writes a board as a PDF of exact size: everything is vectors, a page has the size of its paper.</summary>
public static class BoardPdf
{
    private const double PointsPerMetre = 72 / 0.0254;

    // The library rounds the size of a page to whole steps of this resolution and scales the drawing itself by nothing: in steps of 1/100 pt the
    // page is at most 0.002 mm off, where its default of 1 pt would make an A4 page 0.1 mm too short.
    private const float StepsPerInch = 7200;

    /// <summary>Writes the document: for a tiled board a page with the assembly sketch, then a page for each sheet.</summary>
    /// <param name="stream">Receives the bytes; the same print gives the same bytes.</param>
    /// <param name="print">Board and sheets.</param>
    /// <param name="cancellationToken">Ends the work between pages; what was written is then of no use.</param>
    public static void Write(Stream stream, BoardPrint print, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(print);
        using SKDocument document = SKDocument.CreatePdf(stream, Metadata(print));
        if (print.IsTiled)
            Page(document, print.Plan.Paper, surface => AssemblyDrawing.Draw(surface, print));
        foreach (Sheet sheet in print.Plan.Sheets)
        {
            cancellationToken.ThrowIfCancellationRequested();
            Page(document, print.Plan.Paper, surface => SheetDrawing.Draw(surface, print, sheet, SheetDrawing.Dots(print, sheet), cancellationToken));
        }

        document.Close();
    }

    private static void Page(SKDocument document, PaperSize paper, Action<IDrawingSurface> draw)
    {
        SKCanvas canvas = document.BeginPage((float)(paper.WidthMetres * PointsPerMetre), (float)(paper.HeightMetres * PointsPerMetre));
        draw(new SkiaSurface(canvas, PointsPerMetre));
        document.EndPage();
    }

    // No clock: the date is the one of the print.
    private static SKDocumentPdfMetadata Metadata(BoardPrint print)
    {
        DateTime date = print.Date.ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc);
        return new SKDocumentPdfMetadata(StepsPerInch)
        {
            Title = BoardWords.Title(print.Board),
            Creator = $"BosFlow {print.ProgramVersion}",
            Creation = date,
            Modified = date,
        };
    }
}
