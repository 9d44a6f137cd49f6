using BosFlow.Results.Fonts;
using BosFlow.Speckle.Boards;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>Draws a sheet, or a band of it, on a canvas of SkiaSharp.</summary>
/// <param name="canvas">The canvas; it stays its owner's.</param>
/// <param name="unitsPerMetre">Units of the canvas in a metre.</param>
/// <param name="topUnits">Units of the sheet above the canvas.</param>
/// <remarks>
/// Lengths are turned into units here, in double, and not by a matrix of the canvas: its numbers are single, and an A0 sheet in m scaled up afterwards would
/// lose up to 0.1 mm.
/// </remarks>
internal sealed class SkiaSurface(SKCanvas canvas, double unitsPerMetre, double topUnits = 0) : IDrawingSurface
{
    public void Fill(BoardRectangle area, byte grey)
    {
        using SKPaint paint = Paint(grey);
        canvas.DrawRect(Rectangle(area), paint);
    }

    // Points with round ends: one call, a tenth of the size and a twentieth of the time of one circle each, and the same picture.
    public void Discs(IReadOnlyList<SheetPoint> centres, double diameter, byte grey)
    {
        using SKPaint paint = Paint(grey);
        paint.StrokeWidth = Units(diameter);
        paint.StrokeCap = SKStrokeCap.Round;
        paint.IsStroke = true;
        var points = new SKPoint[centres.Count];
        for (int i = 0; i < points.Length; i++)
            points[i] = Point(centres[i]);
        canvas.DrawPoints(SKPointMode.Points, points, paint);
    }

    public void Shape(IReadOnlyList<IReadOnlyList<SheetPoint>> outlines, byte grey)
    {
        using var path = new SKPath { FillType = SKPathFillType.EvenOdd };
        foreach (IReadOnlyList<SheetPoint> outline in outlines)
        {
            path.MoveTo(Point(outline[0]));
            for (int i = 1; i < outline.Count; i++)
                path.LineTo(Point(outline[i]));
            path.Close();
        }

        using SKPaint paint = Paint(grey);
        canvas.DrawPath(path, paint);
    }

    public void Line(SheetPoint from, SheetPoint to, double width, byte grey)
    {
        using SKPaint paint = Paint(grey);
        paint.StrokeWidth = Units(width);
        paint.IsStroke = true;
        canvas.DrawLine(Point(from), Point(to), paint);
    }

    public void Text(SheetText text)
    {
        using var font = new SKFont(Typeface.Sans, Units(text.Size)) { Edging = SKFontEdging.Antialias, Hinting = SKFontHinting.None, Subpixel = true, LinearMetrics = true };
        using SKPaint paint = Paint(text.Grey);
        SKPoint at = Point(text.At);
        SKTextAlign align = text.Align switch
        {
            TextAlign.Begin => SKTextAlign.Left,
            TextAlign.Middle => SKTextAlign.Center,
            _ => SKTextAlign.Right,
        };
        canvas.Save();
        if (text.IsUpright)
            canvas.RotateDegrees(-90, at.X, at.Y);
        canvas.DrawText(text.Words, at.X, at.Y, align, font, paint);
        canvas.Restore();
    }

    public void Clipped(BoardRectangle area, Action draw)
    {
        canvas.Save();
        canvas.ClipRect(Rectangle(area), SKClipOperation.Intersect, antialias: true);
        draw();
        canvas.Restore();
    }

    private static SKPaint Paint(byte grey) => new() { Color = new SKColor(grey, grey, grey), IsAntialias = true };

    private float Units(double metres) => (float)(metres * unitsPerMetre);

    private SKPoint Point(SheetPoint at) => new(Units(at.X), (float)((at.Y * unitsPerMetre) - topUnits));

    private SKRect Rectangle(BoardRectangle area)
    {
        SKPoint corner = Point(new SheetPoint(area.Left, area.Top));
        SKPoint opposite = Point(new SheetPoint(area.Right, area.Bottom));
        return new SKRect(corner.X, corner.Y, opposite.X, opposite.Y);
    }
}
