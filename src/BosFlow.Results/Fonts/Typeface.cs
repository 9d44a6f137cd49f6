using SkiaSharp;

namespace BosFlow.Results.Fonts;

/// <summary>The typeface of all pictures. It comes with the program, so that no text vanishes on a machine without fonts.</summary>
internal static class Typeface
{
    /// <summary>DejaVu Sans; free licence beside the font file.</summary>
    public static SKTypeface Sans { get; } = Load();

    private static SKTypeface Load()
    {
        using Stream stream = typeof(Typeface).Assembly.GetManifestResourceStream("DejaVuSans.ttf")
            ?? throw new InvalidOperationException("The font of the pictures is missing from the program.");
        return SKTypeface.FromStream(stream) ?? throw new InvalidOperationException("The font of the pictures cannot be read.");
    }
}
