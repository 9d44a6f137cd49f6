using BosFlow.Displacement;
using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>
/// The field as coloured cells, one a vector, as wide as the spacing: nothing is interpolated or smoothed. Masked places
/// are hatched, places without a value grey, and a dot marks a value that is not a plain measurement.
/// </summary>
internal static class MapCells
{
    public static readonly SKColor Outside = SKColors.White;

    public static void Draw(Ink ink, MapLayout layout, MapSpecification map, ColourRange range)
    {
        SKRectI plot = layout.Plot;
        using var bitmap = new SKBitmap(new SKImageInfo(plot.Width, plot.Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        var pixels = new SKColor[plot.Width * plot.Height];
        int[] columns = [.. Enumerable.Range(0, plot.Width).Select(i => Index((i + 0.5) / layout.Scale, map.Grid.OriginX, map.Grid.Spacing, map.Grid.Columns))];
        int[] rows = [.. Enumerable.Range(0, plot.Height).Select(j => Index((j + 0.5) / layout.Scale, map.Grid.OriginY, map.Grid.Spacing, map.Grid.Rows))];
        SKColor[] colours = [.. map.Values.Select(v => float.IsFinite(v) ? map.Colours.At(range.Position(v)) : map.Colours.NotMeasured)];
        for (int j = 0; j < plot.Height; j++)
        {
            for (int i = 0; i < plot.Width; i++)
            {
                int node = rows[j] < 0 || columns[i] < 0 ? -1 : (rows[j] * map.Grid.Columns) + columns[i];
                pixels[(j * plot.Width) + i] = node < 0 ? Outside
                    : map.Cells[node] != CellState.Masked ? colours[node]
                    : OnHatch(i, j) ? map.Colours.Hatch : map.Colours.Mask;
            }
        }

        bitmap.Pixels = pixels;
        ink.Canvas.DrawBitmap(bitmap, plot.Left, plot.Top);
        DrawMarks(ink, layout, map);
    }

    /// <summary>Whether a value is there but is not a plain measurement.</summary>
    public static bool IsMarked(MapSpecification map, int node) => map.Cells[node] == CellState.Marked && float.IsFinite(map.Values[node]);

    public static bool OnHatch(int x, int y) => (x + y) % 12 < 3;

    private static int Index(double edgePosition, double origin, double spacing, int count)
    {
        // Half a px: the first pixel begins at -0.5.
        int index = (int)Math.Floor(((edgePosition - 0.5 - origin) / spacing) + 0.5);
        return index >= 0 && index < count ? index : -1;
    }

    private static void DrawMarks(Ink ink, MapLayout layout, MapSpecification map)
    {
        float radius = MarkRadius(layout, map.Grid);
        for (int row = 0; row < map.Grid.Rows; row++)
        {
            for (int column = 0; column < map.Grid.Columns; column++)
            {
                if (IsMarked(map, (row * map.Grid.Columns) + column))
                    DrawMark(ink, layout.X(map.Grid.X(column)), layout.Y(map.Grid.Y(row)), radius);
            }
        }
    }

    public static float MarkRadius(MapLayout layout, NodeGrid grid) => Math.Clamp((float)grid.Spacing * layout.Scale * 0.16f, 1.2f, 4);

    /// <summary>A dark dot with a light rim, seen on every colour.</summary>
    public static void DrawMark(Ink ink, float x, float y, float radius)
    {
        using var rim = new SKPaint { Color = SKColors.White, IsAntialias = true };
        using var dot = new SKPaint { Color = Ink.Dark, IsAntialias = true };
        ink.Canvas.DrawCircle(x, y, radius + 1.2f, rim);
        ink.Canvas.DrawCircle(x, y, radius, dot);
    }
}
