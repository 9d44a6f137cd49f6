using System.Globalization;
using System.Text;

namespace BosFlow.Results.Boards;

/// <summary>Numbers of an SVG in mm.</summary>
internal static class SvgNumber
{
    private const double MillimetresPerMetre = 1e3;

    /// <summary>A length in mm with up to four decimals, a tenth of a micrometre.</summary>
    /// <param name="metres">The length, m.</param>
    public static string Of(double metres)
    {
        string text = (metres * MillimetresPerMetre).ToString("0.####", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    /// <summary>Closed outlines as the data of one path.</summary>
    /// <param name="outlines">Corners of each outline.</param>
    public static string Path(IReadOnlyList<IReadOnlyList<SheetPoint>> outlines)
    {
        var text = new StringBuilder();
        foreach (IReadOnlyList<SheetPoint> outline in outlines)
        {
            for (int i = 0; i < outline.Count; i++)
                text.Append(i == 0 ? 'M' : 'L').Append(Of(outline[i].X)).Append(' ').Append(Of(outline[i].Y));
            text.Append('Z');
        }

        return text.ToString();
    }
}
