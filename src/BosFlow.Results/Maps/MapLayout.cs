using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>Where the parts of a map lie on its canvas.</summary>
internal sealed class MapLayout
{
    private const int MostPlotWidth = 930;
    private const int MostPlotHeight = 1050;
    private const int LeastPlotWidth = 420;
    private const int LineHeight = 24;

    public MapLayout(int width, int height, bool withMillimetres, string title, string note, bool withBar)
    {
        float scale = Math.Min((float)MostPlotWidth / width, (float)MostPlotHeight / height);
        int plotWidth = Math.Max(1, (int)MathF.Round(width * scale));
        int plotHeight = Math.Max(1, (int)MathF.Round(height * scale));
        int left = 96 + (Math.Max(0, LeastPlotWidth - plotWidth) / 2);
        int right = (withMillimetres ? 92 : 28) + (withBar ? 150 : 0) + (Math.Max(0, LeastPlotWidth - plotWidth) / 2);
        CanvasWidth = left + plotWidth + right;
        TitleLines = Ink.Wrapped(title, Ink.TitleSize, CanvasWidth - 60);
        NoteLines = note.Length == 0 ? [] : Ink.Wrapped(note, Ink.SmallSize, CanvasWidth - 60);
        int top = 30 + (TitleLines.Count * 34) + (NoteLines.Count * LineHeight) + (withMillimetres ? 66 : 14);
        Plot = new SKRectI(left, top, left + plotWidth, top + plotHeight);
        CanvasHeight = top + plotHeight + (withMillimetres ? 156 : 122);
        Scale = scale;
        BarLeft = Plot.Right + (withMillimetres ? 92 : 28) + 4;
    }

    public int CanvasWidth { get; }

    public int CanvasHeight { get; }

    public List<string> TitleLines { get; }

    public List<string> NoteLines { get; }

    /// <summary>Where the picture is shown.</summary>
    public SKRectI Plot { get; }

    /// <summary>Canvas px for one px of the picture.</summary>
    public float Scale { get; }

    public int BarLeft { get; }

    /// <summary>Canvas position of a picture position; the first pixel reaches from -0.5 to 0.5.</summary>
    public float X(double x) => Plot.Left + (float)((x + 0.5) * Scale);

    /// <summary>Canvas position of a picture position.</summary>
    public float Y(double y) => Plot.Top + (float)((y + 0.5) * Scale);
}
