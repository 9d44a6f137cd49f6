using BosFlow.Results.Fonts;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>Widths of texts in the program's typeface.</summary>
internal static class TextMeasure
{
    // Measured at a size where rounding to whole units of the font does not matter.
    private const float Reference = 1000;

    /// <summary>Width of a text, m.</summary>
    /// <param name="words">The text.</param>
    /// <param name="size">Size of the letters (em), m.</param>
    public static double Width(string words, double size)
    {
        using SKFont font = new(Typeface.Sans, Reference) { Hinting = SKFontHinting.None, Subpixel = true, LinearMetrics = true };
        return font.MeasureText(words) / Reference * size;
    }

    /// <summary>Lines of at most a width; a word that is longer stands alone.</summary>
    /// <param name="words">The text.</param>
    /// <param name="size">Size of the letters (em), m.</param>
    /// <param name="width">Width, m.</param>
    public static List<string> Wrap(string words, double size, double width) => Wrap(words.Split(' '), " ", size, width);

    /// <summary>Lines of at most a width, broken only between parts; a part that is longer stands alone.</summary>
    /// <param name="parts">The parts, in order.</param>
    /// <param name="between">What stands between two parts of a line.</param>
    /// <param name="size">Size of the letters (em), m.</param>
    /// <param name="width">Width, m.</param>
    public static List<string> Wrap(IEnumerable<string> parts, string between, double size, double width)
    {
        List<string> lines = [];
        foreach (string part in parts)
        {
            if (lines.Count > 0 && Width(lines[^1] + between + part, size) <= width)
                lines[^1] += between + part;
            else
                lines.Add(part);
        }

        return lines;
    }
}
