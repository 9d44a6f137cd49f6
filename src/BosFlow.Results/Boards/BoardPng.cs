using BosFlow.Speckle.Boards;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>Writes a board as PNG of a true resolution, one picture for each sheet: 8-bit grey, edges of dots by the area they cover.</summary>
public static class BoardPng
{
    /// <summary>Most pixels of a picture: more than this few programs open.</summary>
    public const long MostPixels = 1L << 31;

    private const double MetresPerInch = 0.0254;

    // Memory is that of one band, whatever the height of the picture.
    private const int BandBytes = 8 << 20;

    /// <summary>Size of the picture of a sheet.</summary>
    /// <param name="paper">Paper of the sheet.</param>
    /// <param name="dpi">Pixels in an inch.</param>
    /// <returns>Width and height, px, rounded to the nearest.</returns>
    public static (long Width, long Height) Size(PaperSize paper, double dpi)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return ((long)Math.Round(paper.WidthMetres / MetresPerInch * dpi), (long)Math.Round(paper.HeightMetres / MetresPerInch * dpi));
    }

    /// <summary>Highest whole resolution at which a sheet stays within <see cref="MostPixels"/>.</summary>
    /// <param name="paper">Paper of the sheet.</param>
    /// <returns>Pixels in an inch.</returns>
    public static int HighestDpi(PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return (int)(Math.Sqrt(MostPixels / (paper.WidthMetres * paper.HeightMetres)) * MetresPerInch);
    }

    /// <summary>Writes one sheet.</summary>
    /// <param name="stream">Receives the file; the same print gives the same bytes.</param>
    /// <param name="print">Board and sheets.</param>
    /// <param name="sheet">One of the sheets.</param>
    /// <param name="dpi">Pixels in an inch.</param>
    /// <param name="cancellationToken">Ends the work; what was written is then of no use.</param>
    public static void WriteSheet(Stream stream, BoardPrint print, Sheet sheet, double dpi, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(print);
        ArgumentNullException.ThrowIfNull(sheet);
        WriteSheet(stream, print, sheet, dpi, BandRows(print.Plan.Paper, dpi), cancellationToken);
    }

    /// <summary>Writes one sheet in bands of so many rows.</summary>
    internal static void WriteSheet(Stream stream, BoardPrint print, Sheet sheet, double dpi, int bandRows, CancellationToken cancellationToken)
    {
        IReadOnlyList<DotClass> dots = SheetDrawing.Dots(print, sheet);
        Write(
            stream,
            print,
            dpi,
            bandRows,
            (surface, top, bottom) => SheetDrawing.Draw(surface, print, sheet, [.. dots.Select(same => same.Between(top, bottom))], cancellationToken),
            cancellationToken);
    }

    /// <summary>Writes the assembly sketch of a tiled board.</summary>
    /// <param name="stream">Receives the file.</param>
    /// <param name="print">Board and sheets.</param>
    /// <param name="dpi">Pixels in an inch.</param>
    /// <param name="cancellationToken">Ends the work; what was written is then of no use.</param>
    public static void WriteAssembly(Stream stream, BoardPrint print, double dpi, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(print);
        Write(stream, print, dpi, BandRows(print.Plan.Paper, dpi), (surface, _, _) => AssemblyDrawing.Draw(surface, print), cancellationToken);
    }

    private static int BandRows(PaperSize paper, double dpi) => (int)Math.Max(1, BandBytes / Math.Max(1, Size(paper, dpi).Width));

    private static void Write(Stream stream, BoardPrint print, double dpi, int mostRows, Action<IDrawingSurface, double, double> draw, CancellationToken cancellationToken)
    {
        (long longWidth, long longHeight) = Size(print.Plan.Paper, dpi);
        if (longWidth * longHeight > MostPixels)
            throw new ArgumentOutOfRangeException(nameof(dpi), dpi, "The picture has too many pixels.");
        (int width, int height) = ((int)longWidth, (int)longHeight);
        double pixelsPerMetre = dpi / MetresPerInch;
        int bandRows = Math.Min(mostRows, height);
        using var writer = new GreyPngWriter(stream, width, height, dpi, BoardWords.Title(print.Board));
        using var bitmap = new SKBitmap(new SKImageInfo(width, bandRows, SKColorType.Gray8, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        for (int top = 0; top < height; top += bandRows)
        {
            cancellationToken.ThrowIfCancellationRequested();
            int rows = Math.Min(bandRows, height - top);
            canvas.Clear(SKColors.White);
            draw(new PictureSurface(bitmap, canvas, pixelsPerMetre, top), top / pixelsPerMetre, (top + rows) / pixelsPerMetre);
            canvas.Flush();
            ReadOnlySpan<byte> pixels = bitmap.GetPixelSpan();
            for (int y = 0; y < rows; y++)
                writer.Row(pixels.Slice(y * bitmap.RowBytes, width));
        }

        writer.Finish();
    }
}
