using System.Globalization;
using BosFlow.Density;
using BosFlow.Results.Plots;

namespace BosFlow.Results.Maps;

/// <summary>The axis of an axisymmetric flow as a line over a map, with a short line across at each plotted station.</summary>
internal static class AxisLines
{
    public static IReadOnlyList<MapLine> Of(DensityResult density, int width, int height)
    {
        if (density.Axis is not { } axis)
            return [];
        double length = width + height;
        (double sine, double cosine) = Math.SinCos(axis.DirectionDegrees * Math.PI / 180);
        // y runs down, the direction is counter-clockwise as seen; the label goes to the right-hand end of the short line.
        (double alongX, double alongY) = (cosine, -sine);
        (double acrossX, double acrossY) = sine >= 0 ? (sine, cosine) : (-sine, -cosine);
        double half = 0.015 * Math.Max(width, height);
        return
        [
            new MapLine(axis.X - (length * alongX), axis.Y - (length * alongY), axis.X + (length * alongX), axis.Y + (length * alongY)),
            .. StationChoice.Of(density.Profiles).Select(p => new MapLine(
                p.AxisX - (half * acrossX), p.AxisY - (half * acrossY), p.AxisX + (half * acrossX), p.AxisY + (half * acrossY), Label(p))),
        ];
    }

    /// <summary>A station as maps and plots name it: its position along the axis.</summary>
    public static string Label(RadialProfile profile) => string.Create(CultureInfo.InvariantCulture, $"{profile.AxialMetres * 1000:0.0} mm");
}
