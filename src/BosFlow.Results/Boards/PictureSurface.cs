using BosFlow.Speckle.Boards;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>Draws a band of a sheet into a grey bitmap: discs by the area they cover, everything else by SkiaSharp.</summary>
internal sealed class PictureSurface : IDrawingSurface
{
    private readonly SKBitmap bitmap;
    private readonly SKCanvas canvas;
    private readonly SkiaSurface skia;
    private readonly double unitsPerMetre;
    private readonly double topUnits;
    private BoardRectangle? clip;

    /// <summary>Begins a band.</summary>
    /// <param name="bitmap">8-bit grey; it stays its owner's.</param>
    /// <param name="canvas">A canvas on that bitmap; it stays its owner's.</param>
    /// <param name="pixelsPerMetre">Pixels in a metre.</param>
    /// <param name="top">Rows of the sheet above the bitmap.</param>
    public PictureSurface(SKBitmap bitmap, SKCanvas canvas, double pixelsPerMetre, int top)
    {
        this.bitmap = bitmap;
        this.canvas = canvas;
        skia = new SkiaSurface(canvas, pixelsPerMetre, top);
        unitsPerMetre = pixelsPerMetre;
        topUnits = top;
    }

    public void Fill(BoardRectangle area, byte grey) => skia.Fill(area, grey);

    public void Shape(IReadOnlyList<IReadOnlyList<SheetPoint>> outlines, byte grey) => skia.Shape(outlines, grey);

    public void Line(SheetPoint from, SheetPoint to, double width, byte grey) => skia.Line(from, to, width, grey);

    public void Text(SheetText text) => skia.Text(text);

    public void Clipped(BoardRectangle area, Action draw)
    {
        BoardRectangle? outer = clip;
        clip = area;
        skia.Clipped(area, draw);
        clip = outer;
    }

    public void Discs(IReadOnlyList<SheetPoint> centres, double diameter, byte grey)
    {
        // What was drawn before lies below.
        canvas.Flush();
        double radius = diameter / 2 * unitsPerMetre;
        var covered = new float[(int)Math.Ceiling(2 * radius) + 2];
        foreach (SheetPoint centre in centres)
            Disc(centre.X * unitsPerMetre, (centre.Y * unitsPerMetre) - topUnits, radius, grey, covered);
        bitmap.NotifyPixelsChanged();
    }

    private void Disc(double x, double y, double radius, byte grey, float[] covered)
    {
        int left = (int)Math.Floor(x - radius);
        int last = Math.Min((int)Math.Ceiling(y + radius), bitmap.Height);
        Span<byte> pixels = bitmap.GetPixelSpan();
        for (int row = Math.Max(0, (int)Math.Floor(y - radius)); row < last; row++)
        {
            double inClipRow = InClip(row + topUnits, clip?.Top, clip?.Bottom);
            if (inClipRow <= 0)
                continue;
            DiscRaster.Row(x - left, y - row, radius, covered);
            Span<byte> target = pixels.Slice(row * bitmap.RowBytes, bitmap.Width);
            for (int i = Math.Max(0, -left); i < covered.Length && left + i < target.Length; i++)
            {
                double part = covered[i] * inClipRow * InClip(left + i, clip?.Left, clip?.Right);
                int at = left + i;
                target[at] = (byte)Math.Round(target[at] + (Math.Min(part, 1) * (grey - target[at])));
            }
        }
    }

    // Part of a pixel, along one direction, that lies between the edges of the clip.
    private double InClip(double pixel, double? from, double? to) =>
        from is null || to is null ? 1 : Math.Clamp(Math.Min(pixel + 1, to.Value * unitsPerMetre) - Math.Max(pixel, from.Value * unitsPerMetre), 0, 1);
}
