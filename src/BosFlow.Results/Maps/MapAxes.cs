using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>Title, axes in px and in mm of the flow plane, and the scale bar.</summary>
internal static class MapAxes
{
    private const float TickLength = 8;

    public static void Draw(Ink ink, MapLayout layout, int width, int height, double? millimetresPerPixel)
    {
        DrawHeading(ink, layout);
        SKRectI plot = layout.Plot;
        ink.Box(new SKRect(plot.Left - 0.5f, plot.Top - 0.5f, plot.Right + 0.5f, plot.Bottom + 0.5f), 1.5f, Ink.Dark);
        DrawHorizontal(ink, layout, width, 1, plot.Bottom, 1, "x in the reference picture (px)");
        DrawVertical(ink, layout, height, 1, plot.Left, -1, "y in the reference picture (px)");
        if (millimetresPerPixel is not { } millimetres)
            return;
        DrawHorizontal(ink, layout, width, millimetres, plot.Top, -1, "x in the plane of the flow (mm)");
        DrawVertical(ink, layout, height, millimetres, plot.Right, 1, "y in the plane of the flow (mm)");
        DrawScaleBar(ink, layout, width, millimetres);
    }

    private static void DrawHeading(Ink ink, MapLayout layout)
    {
        float y = 34;
        foreach (string line in layout.TitleLines)
        {
            ink.Text(line, 30, y, Ink.TitleSize, SKTextAlign.Left, Ink.Dark);
            y += 34;
        }

        foreach (string line in layout.NoteLines)
        {
            ink.Text(line, 30, y, Ink.SmallSize, SKTextAlign.Left, Ink.Soft);
            y += 24;
        }
    }

    private static void DrawHorizontal(Ink ink, MapLayout layout, int pixels, double unitsPerPixel, float y, int outwards, string label)
    {
        Ticks ticks = Ticks.Between(0, (pixels - 1) * unitsPerPixel, Math.Clamp(layout.Plot.Width / 110, 3, 9));
        foreach (double tick in ticks.Values)
        {
            float x = layout.X(tick / unitsPerPixel);
            ink.Line(x, y, x, y + (outwards * TickLength), 1.5f, Ink.Dark);
            ink.Text(ticks.Label(tick), x, y + (outwards * 22), Ink.SmallSize, SKTextAlign.Center, Ink.Dark);
        }

        ink.Text(label, layout.Plot.MidX, y + (outwards * 48), Ink.LabelSize, SKTextAlign.Center, Ink.Dark);
    }

    private static void DrawVertical(Ink ink, MapLayout layout, int pixels, double unitsPerPixel, float x, int outwards, string label)
    {
        Ticks ticks = Ticks.Between(0, (pixels - 1) * unitsPerPixel, Math.Clamp(layout.Plot.Height / 80, 3, 9));
        SKTextAlign align = outwards < 0 ? SKTextAlign.Right : SKTextAlign.Left;
        foreach (double tick in ticks.Values)
        {
            float y = layout.Y(tick / unitsPerPixel);
            ink.Line(x, y, x + (outwards * TickLength), y, 1.5f, Ink.Dark);
            ink.Text(ticks.Label(tick), x + (outwards * 13), y, Ink.SmallSize, align, Ink.Dark);
        }

        // A low plot has no room for the label along it: it goes without rather than over the neighbours.
        if (Ink.Width(label, Ink.LabelSize) <= layout.Plot.Height + 60)
            ink.Upright(label, x + (outwards * 72), layout.Plot.MidY, Ink.LabelSize, Ink.Dark);
        else
            ink.Upright("y", x + (outwards * 72), layout.Plot.MidY, Ink.LabelSize, Ink.Dark);
    }

    private static void DrawScaleBar(Ink ink, MapLayout layout, int width, double millimetresPerPixel)
    {
        double wanted = width * millimetresPerPixel / 5;
        double step = Ticks.Step(wanted);
        double length = step > 1.6 * wanted ? Ticks.Step(wanted / 2.5) : step;
        float canvasLength = (float)(length / millimetresPerPixel * layout.Scale);
        // Below the plot: a bar inside would hide vectors.
        float left = layout.Plot.Left;
        float y = layout.Plot.Bottom + 84;
        ink.Line(left, y, left + canvasLength, y, 5, Ink.Dark);
        ink.Text($"{Ticks.Between(0, length, 2).Label(length)} mm in the plane of the flow", left + canvasLength + 12, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
    }
}
