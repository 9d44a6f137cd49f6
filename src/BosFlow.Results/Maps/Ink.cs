using BosFlow.Results.Fonts;
using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>Text and lines in the one style of all pictures.</summary>
internal sealed class Ink(SKCanvas canvas)
{
    public const float TitleSize = 27;
    public const float LabelSize = 20;
    public const float SmallSize = 17;

    public static readonly SKColor Dark = new(0x1f, 0x24, 0x28);
    public static readonly SKColor Soft = new(0x55, 0x5d, 0x64);

    public SKCanvas Canvas => canvas;

    public static float Width(string text, float size)
    {
        using SKFont font = Font(size);
        return font.MeasureText(text);
    }

    /// <summary>Text whose middle height lies at y.</summary>
    public void Text(string text, float x, float y, float size, SKTextAlign align, SKColor colour)
    {
        using SKFont font = Font(size);
        using var paint = new SKPaint { Color = colour, IsAntialias = true };
        // A third of the size above the base line is the middle of capitals and digits.
        canvas.DrawText(text, x, y + (size * 0.36f), align, font, paint);
    }

    public void Upright(string text, float x, float y, float size, SKColor colour)
    {
        canvas.Save();
        canvas.RotateDegrees(-90, x, y);
        Text(text, x, y, size, SKTextAlign.Center, colour);
        canvas.Restore();
    }

    public void Line(float x0, float y0, float x1, float y1, float width, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour, StrokeWidth = width, IsAntialias = true };
        canvas.DrawLine(x0, y0, x1, y1, paint);
    }

    public void Box(SKRect box, float width, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour, StrokeWidth = width, IsStroke = true, IsAntialias = false };
        canvas.DrawRect(box, paint);
    }

    public void Fill(SKRect box, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour };
        canvas.DrawRect(box, paint);
    }

    /// <summary>Text in lines of at most a width.</summary>
    public static List<string> Wrapped(string text, float size, float width)
    {
        List<string> lines = [string.Empty];
        foreach (string word in text.Split(' '))
        {
            string longer = lines[^1].Length == 0 ? word : $"{lines[^1]} {word}";
            if (lines[^1].Length > 0 && Width(longer, size) > width)
                lines.Add(word);
            else
                lines[^1] = longer;
        }

        return lines;
    }

    private static SKFont Font(float size) => new(Typeface.Sans, size) { Edging = SKFontEdging.Antialias, Hinting = SKFontHinting.None, Subpixel = true };
}
