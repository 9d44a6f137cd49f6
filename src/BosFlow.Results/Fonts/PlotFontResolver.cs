using ScottPlot;
using SkiaSharp;

namespace BosFlow.Results.Fonts;

/// <summary>Hands the program's own typeface to the plotting library, whatever fonts the machine has.</summary>
internal sealed class PlotFontResolver : IFontResolver
{
    public const string Family = "BosFlow Sans";

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) => fontName == Family ? Typeface.Sans : null;

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => fontName == Family ? Typeface.Sans : null;

    /// <summary>Makes the typeface known under <see cref="Family"/>; more than once does no harm.</summary>
    public static void Register()
    {
        lock (ScottPlot.Fonts.FontResolvers)
        {
            if (!ScottPlot.Fonts.FontResolvers.OfType<PlotFontResolver>().Any())
                ScottPlot.Fonts.FontResolvers.Add(new PlotFontResolver());
        }
    }
}
