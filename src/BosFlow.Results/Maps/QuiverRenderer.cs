using System.Globalization;
using BosFlow.Displacement;
using BosFlow.Footage;
using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>Draws displacement arrows over the faded reference picture. The same input gives the same bytes.</summary>
public static class QuiverRenderer
{
    private const float LeastDistance = 26;
    private const VectorFlags Doubtful = VectorFlags.OutlierReplaced | VectorFlags.LowCorrelation | VectorFlags.NotConverged;
    private static readonly SKColor Measured = new(0xb0, 0x2a, 0x12);
    private static readonly SKColor Questionable = new(0x1c, 0x4e, 0x9c);

    /// <summary>Draws the arrows; where the grid is dense, every second, third, ... vector.</summary>
    /// <param name="quiver">What to show.</param>
    /// <returns>The bytes of a PNG.</returns>
    public static byte[] Render(QuiverSpecification quiver)
    {
        ArgumentNullException.ThrowIfNull(quiver);
        (double enlargement, double key) = Enlargement(quiver, Stride(quiver, Layout(quiver, string.Empty)));
        int stride = Stride(quiver, Layout(quiver, string.Empty));
        string every = stride == 1 ? "Every vector is drawn" : $"One vector in {stride} is drawn each way,";
        string note = string.Create(CultureInfo.InvariantCulture, $"{every} {enlargement:G3} times its length; an arrow points to where the pattern is seen displaced.");
        MapLayout layout = Layout(quiver, note);
        return Png.Draw(layout.CanvasWidth, layout.CanvasHeight, ink =>
        {
            DrawPicture(ink, layout, quiver.Picture);
            DrawMasked(ink, layout, quiver);
            ink.Canvas.Save();
            ink.Canvas.ClipRect(layout.Plot);
            DrawArrows(ink, layout, quiver, stride, enlargement);
            ink.Canvas.Restore();
            MapAxes.Draw(ink, layout, quiver.Picture.Width, quiver.Picture.Height, quiver.FlowMillimetresPerPixel);
            DrawKey(ink, layout, quiver, enlargement, key);
        });
    }

    private static MapLayout Layout(QuiverSpecification quiver, string note) =>
        new(quiver.Picture.Width, quiver.Picture.Height, quiver.FlowMillimetresPerPixel is not null, quiver.Title, note, withBar: false);

    private static int Stride(QuiverSpecification quiver, MapLayout layout) =>
        Math.Max(1, (int)Math.Ceiling(LeastDistance / (quiver.Grid.Spacing * layout.Scale)));

    // The largest, but for two in a thousand, becomes about one distance between arrows; the key is the next round number below it.
    private static (double Enlargement, double Key) Enlargement(QuiverSpecification quiver, int stride)
    {
        float[] lengths = [.. quiver.U.Zip(quiver.V, (u, v) => MathF.Sqrt((u * u) + (v * v)))];
        double largest = ColourRange.Automatic(lengths, signed: false).High;
        double wanted = stride * quiver.Grid.Spacing / largest;
        double step = Ticks.Step(wanted);
        double enlargement = step > 1.6 * wanted ? Ticks.Step(wanted / 2.2) : step;
        double key = Ticks.Step(largest);
        return (enlargement, key > largest * 1.3 ? Ticks.Step(largest / 2.2) : key);
    }

    private static void DrawPicture(Ink ink, MapLayout layout, GrayImage picture)
    {
        SKRectI plot = layout.Plot;
        (float dark, float light) = Levels(picture);
        var pixels = new SKColor[plot.Width * plot.Height];
        for (int j = 0; j < plot.Height; j++)
        {
            ReadOnlySpan<float> row = picture.Row(Math.Min(picture.Height - 1, (int)((j + 0.5f) / layout.Scale)));
            for (int i = 0; i < plot.Width; i++)
            {
                float level = row[Math.Min(picture.Width - 1, (int)((i + 0.5f) / layout.Scale))];
                // Faded, so that the arrows carry the picture.
                byte grey = (byte)(float.IsNaN(level) ? 225 : 190 + (58 * Math.Clamp((level - dark) / (light - dark), 0, 1)));
                pixels[(j * plot.Width) + i] = new SKColor(grey, grey, grey);
            }
        }

        using var bitmap = new SKBitmap(new SKImageInfo(plot.Width, plot.Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        bitmap.Pixels = pixels;
        ink.Canvas.DrawBitmap(bitmap, plot.Left, plot.Top);
    }

    private static void DrawMasked(Ink ink, MapLayout layout, QuiverSpecification quiver)
    {
        float half = (float)(quiver.Grid.Spacing * layout.Scale / 2);
        for (int node = 0; node < quiver.Grid.Count; node++)
        {
            if ((quiver.Flags[node] & VectorFlags.Masked) == 0)
                continue;
            float x = layout.X(quiver.Grid.X(node % quiver.Grid.Columns));
            float y = layout.Y(quiver.Grid.Y(node / quiver.Grid.Columns));
            MapLegend.Hatch(ink, new SKRectI((int)MathF.Round(x - half), (int)MathF.Round(y - half), (int)MathF.Round(x + half), (int)MathF.Round(y + half)), ColourMap.Magnitude);
        }
    }

    private static (float Dark, float Light) Levels(GrayImage picture)
    {
        List<float> known = [];
        int step = Math.Max(1, picture.Pixels.Length / 20000);
        for (int i = 0; i < picture.Pixels.Length; i += step)
        {
            if (float.IsFinite(picture.Pixels[i]))
                known.Add(picture.Pixels[i]);
        }

        if (known.Count == 0)
            return (0, 1);
        known.Sort();
        float dark = known[known.Count / 50];
        return (dark, Math.Max(dark + 1e-6f, known[known.Count - 1 - (known.Count / 50)]));
    }

    private static void DrawArrows(Ink ink, MapLayout layout, QuiverSpecification quiver, int stride, double enlargement)
    {
        for (int row = stride / 2; row < quiver.Grid.Rows; row += stride)
        {
            for (int column = stride / 2; column < quiver.Grid.Columns; column += stride)
            {
                int node = (row * quiver.Grid.Columns) + column;
                if (!float.IsFinite(quiver.U[node]) || !float.IsFinite(quiver.V[node]))
                    continue;
                double factor = enlargement * layout.Scale;
                SKColor colour = (quiver.Flags[node] & Doubtful) == 0 ? Measured : Questionable;
                Arrow(ink, layout.X(quiver.Grid.X(column)), layout.Y(quiver.Grid.Y(row)), (float)(quiver.U[node] * factor), (float)(quiver.V[node] * factor), colour);
            }
        }
    }

    private static void Arrow(Ink ink, float x, float y, float dx, float dy, SKColor colour)
    {
        float length = MathF.Sqrt((dx * dx) + (dy * dy));
        if (length < 1.5f)
        {
            ink.Fill(new SKRect(x - 1, y - 1, x + 1, y + 1), colour);
            return;
        }

        float head = Math.Min(9, length * 0.45f);
        (float ux, float uy) = (dx / length, dy / length);
        (float neckX, float neckY) = (x + dx - (ux * head), y + dy - (uy * head));
        ink.Line(x, y, neckX, neckY, 3.6f, new SKColor(255, 255, 255, 170));
        ink.Line(x, y, neckX, neckY, 1.8f, colour);
        using var builder = new SKPath();
        builder.MoveTo(x + dx, y + dy);
        builder.LineTo(neckX - (uy * head * 0.42f), neckY + (ux * head * 0.42f));
        builder.LineTo(neckX + (uy * head * 0.42f), neckY - (ux * head * 0.42f));
        builder.Close();
        using var paint = new SKPaint { Color = colour, IsAntialias = true };
        ink.Canvas.DrawPath(builder, paint);
    }

    private static void DrawKey(Ink ink, MapLayout layout, QuiverSpecification quiver, double enlargement, double key)
    {
        float y = layout.CanvasHeight - 28;
        float x = layout.Plot.Left;
        float length = (float)(key * enlargement * layout.Scale);
        Arrow(ink, x, y, length, 0, Measured);
        x += length + 12;
        string text = $"{Ticks.Between(0, key, 2).Label(key)} px";
        ink.Text(text, x, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
        x += Ink.Width(text, Ink.SmallSize) + 32;
        if (quiver.Flags.Any(f => (f & VectorFlags.Masked) != 0))
            x = MapLegend.Entry(ink, x, y, "masked", box => MapLegend.Hatch(ink, SKRectI.Round(box), ColourMap.Magnitude));
        if (!Enumerable.Range(0, quiver.Grid.Count).Any(i => (quiver.Flags[i] & Doubtful) != 0 && float.IsFinite(quiver.U[i])))
            return;
        Arrow(ink, x, y, 34, 0, Questionable);
        ink.Text("replaced or doubtful", x + 44, y, Ink.SmallSize, SKTextAlign.Left, Ink.Dark);
    }
}
