using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>Names what is not plain colour: only what the map really shows.</summary>
internal static class MapLegend
{
    private const int Swatch = 24;

    public static void Draw(Ink ink, MapLayout layout, MapSpecification map)
    {
        float x = layout.Plot.Left;
        float y = layout.CanvasHeight - 28;
        int nodes = map.Grid.Count;
        bool masked = map.Cells.Contains(CellState.Masked);
        bool missing = Enumerable.Range(0, nodes).Any(i => !float.IsFinite(map.Values[i]) && map.Cells[i] != CellState.Masked);
        bool marked = Enumerable.Range(0, nodes).Any(i => MapCells.IsMarked(map, i));
        if (masked)
            x = Entry(ink, x, y, "masked", box => Hatch(ink, SKRectI.Round(box), map.Colours));
        if (missing)
            x = Entry(ink, x, y, map.MissingText, box => ink.Fill(box, map.Colours.NotMeasured));
        if (marked)
            Entry(ink, x, y, map.MarkText, box => MapCells.DrawMark(ink, box.MidX, box.MidY, 4));
    }

    /// <summary>One swatch with its name; returns where the next begins.</summary>
    public static float Entry(Ink ink, float x, float y, string text, Action<SKRect> draw)
    {
        var box = new SKRect(x, y - (Swatch / 2), x + Swatch, y + (Swatch / 2));
        draw(box);
        ink.Box(box, 1, Ink.Soft);
        ink.Text(text, x + Swatch + 8, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
        return x + Swatch + 8 + Ink.Width(text, Ink.SmallSize) + 28;
    }

    /// <summary>Hatching that runs on from one box to the next.</summary>
    public static void Hatch(Ink ink, SKRectI box, ColourMap colours)
    {
        ink.Fill(box, colours.Mask);
        ink.Canvas.Save();
        ink.Canvas.ClipRect(box);
        // Lines x + y = const, as MapCells draws them pixel by pixel.
        for (int sum = (box.Left + box.Top) / 12 * 12; sum <= box.Right + box.Bottom; sum += 12)
            ink.Line(sum - box.Top + 1, box.Top, sum - box.Bottom + 1, box.Bottom, 2.1f, colours.Hatch);
        ink.Canvas.Restore();
    }
}
