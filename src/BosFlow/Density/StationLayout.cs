using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Where along an axis profiles are taken, and at which radii: stations as close as the nodes of the displacement.</summary>
internal sealed class StationLayout
{
    /// <summary>Distance of the radii over that of the nodes which serves windows that overlap by half.</summary>
    public const double RadialNodes = 0.5;

    private StationLayout(double first, double spacing, int count, double radialStepMetres, int mostRadii)
    {
        First = first;
        Spacing = spacing;
        Count = count;
        RadialStepMetres = radialStepMetres;
        MostRadii = mostRadii;
    }

    /// <summary>Position of the first station along the axis, px.</summary>
    public double First { get; }

    /// <summary>Distance of the stations, px.</summary>
    public double Spacing { get; }

    /// <summary>Number of stations.</summary>
    public int Count { get; }

    /// <summary>Distance of the radii, m.</summary>
    public double RadialStepMetres { get; }

    /// <summary>Number of radii that any station could need.</summary>
    public int MostRadii { get; }

    /// <summary>Lays stations out where the axis runs through the grid; none where it does not.</summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="flowMetresPerPixel">Scale in the flow plane, m/px.</param>
    /// <param name="radialNodes">Distance of the radii over that of the nodes: a quarter of a window loses nothing that the window did not.</param>
    public static StationLayout Of(NodeGrid grid, AxisFrame axis, double flowMetresPerPixel, double radialNodes = RadialNodes)
    {
        double right = grid.X(grid.Columns - 1);
        double bottom = grid.Y(grid.Rows - 1);
        (double enter, double leave) = (double.NegativeInfinity, double.PositiveInfinity);
        Clip(axis.X, axis.AlongX, grid.OriginX, right, ref enter, ref leave);
        Clip(axis.Y, axis.AlongY, grid.OriginY, bottom, ref enter, ref leave);
        int count = leave >= enter ? 1 + (int)((leave - enter) / grid.Spacing) : 0;
        double across = new[] { (grid.OriginX, grid.OriginY), (right, grid.OriginY), (grid.OriginX, bottom), (right, bottom) }
            .Max(corner => Math.Abs(axis.Split(corner.Item1, corner.Item2).Right));
        // Half of what is left over goes to either end.
        double first = enter + (0.5 * ((leave - enter) - ((count - 1) * grid.Spacing)));
        return new StationLayout(first, grid.Spacing, count, flowMetresPerPixel * grid.Spacing * radialNodes, 2 + (int)(across / (radialNodes * grid.Spacing)));
    }

    /// <summary>Position of a station along the axis, px.</summary>
    public double Along(int station) => First + (station * Spacing);

    private static void Clip(double origin, double direction, double low, double high, ref double enter, ref double leave)
    {
        if (Math.Abs(direction) < 1e-12)
        {
            if (origin < low || origin > high)
                leave = double.NegativeInfinity;
            return;
        }

        double a = (low - origin) / direction;
        double b = (high - origin) / direction;
        enter = Math.Max(enter, Math.Min(a, b));
        leave = Math.Min(leave, Math.Max(a, b));
    }
}
