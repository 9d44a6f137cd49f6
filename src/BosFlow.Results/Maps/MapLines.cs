using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>Draws the lines over a map: dark with a light rim, seen on every colour.</summary>
internal static class MapLines
{
    private static readonly SKColor Rim = new(255, 255, 255, 200);

    public static void Draw(Ink ink, MapLayout layout, IReadOnlyList<MapLine> lines)
    {
        ink.Canvas.Save();
        ink.Canvas.ClipRect(layout.Plot);
        foreach (MapLine line in lines)
            Stroke(ink, layout, line, 4, Rim);
        foreach (MapLine line in lines)
            Stroke(ink, layout, line, 1.5f, Ink.Dark);
        foreach (MapLine line in lines.Where(l => l.Label.Length > 0))
            Label(ink, layout, line);
        ink.Canvas.Restore();
    }

    private static void Stroke(Ink ink, MapLayout layout, MapLine line, float width, SKColor colour) =>
        ink.Line(layout.X(line.X1), layout.Y(line.Y1), layout.X(line.X2), layout.Y(line.Y2), width, colour);

    private static void Label(Ink ink, MapLayout layout, MapLine line)
    {
        float width = Ink.Width(line.Label, Ink.SmallSize);
        float height = Ink.SmallSize + 6;
        (float x, float y) = (layout.X(line.X2), layout.Y(line.Y2));
        // Beyond the end, but wholly inside the plot.
        float left = line.X2 >= line.X1 ? x + 6 : x - 6 - width - 8;
        left = Math.Clamp(left, layout.Plot.Left, Math.Max(layout.Plot.Left, layout.Plot.Right - width - 8));
        y = Math.Clamp(y, layout.Plot.Top + (height / 2), layout.Plot.Bottom - (height / 2));
        ink.Fill(new SKRect(left, y - (height / 2), left + width + 8, y + (height / 2)), Rim);
        ink.Text(line.Label, left + 4, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
    }
}
