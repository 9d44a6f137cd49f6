using System.Globalization;

namespace BosFlow.Results.Maps;

/// <summary>Draws false-colour maps. The same map gives the same bytes.</summary>
public static class MapRenderer
{
    /// <summary>Draws a map with title, axes, colour bar, scale bar and legend.</summary>
    /// <param name="map">What to show.</param>
    /// <returns>The bytes of a PNG.</returns>
    /// <exception cref="ArgumentException">Values or states do not fit the grid.</exception>
    public static byte[] Render(MapSpecification map)
    {
        ArgumentNullException.ThrowIfNull(map);
        if (map.Values.Length != map.Grid.Count || map.Cells.Length != map.Grid.Count)
            throw new ArgumentException($"{map.Values.Length} values and {map.Cells.Length} states given for {map.Grid.Count} nodes.", nameof(map));
        ColourRange range = map.Range ?? ColourRange.Automatic(map.Values, map.Colours.IsSigned);
        MapLayout layout = Layout(map, range);
        return Png.Draw(layout.CanvasWidth, layout.CanvasHeight, ink =>
        {
            MapCells.Draw(ink, layout, map, range);
            MapLines.Draw(ink, layout, map.Lines);
            MapAxes.Draw(ink, layout, map.Width, map.Height, map.FlowMillimetresPerPixel);
            ColourBar.Draw(ink, layout, map, range);
            MapLegend.Draw(ink, layout, map);
        });
    }

    internal static MapLayout Layout(MapSpecification map, ColourRange range) =>
        new(map.Width, map.Height, map.FlowMillimetresPerPixel is not null, map.Title, $"{map.Note} {Range(map, range)}".Trim(), withBar: true);

    private static string Range(MapSpecification map, ColourRange range)
    {
        int exponent = UnitText.Exponent(Math.Max(Math.Abs(range.Low), Math.Abs(range.High)));
        double factor = Math.Pow(10, -exponent);
        string ends = string.Create(CultureInfo.InvariantCulture, $"{range.Low * factor:0.###} to {range.High * factor:0.###} {UnitText.WithExponent(map.Unit, exponent)}").Replace('-', '\u2212');
        if (exponent != 0)
            ends = ends.Replace(" 10", " × 10", StringComparison.Ordinal);
        return $"Colours from {ends.TrimEnd()}: {range.Statement}.";
    }
}
