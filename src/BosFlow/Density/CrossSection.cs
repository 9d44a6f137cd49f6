using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Spreads radial profiles over the nodes of the picture: the cross-section through the axis.</summary>
internal static class CrossSection
{
    private const int Points = 4;

    // The last radius stands for the half step outside of it too.
    private const double Beyond = 0.5;

    /// <summary>Values, sigmas and flags at every node.</summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="layout">Stations and radii.</param>
    /// <param name="flowMetresPerPixel">Scale in the flow plane, m/px.</param>
    /// <param name="profiles">One for each station.</param>
    public static UnitField Of(NodeGrid grid, AxisFrame axis, StationLayout layout, double flowMetresPerPixel, UnitProfile?[] profiles)
    {
        double[]?[] excesses = [.. profiles.Select(profile => profile?.Excess)];
        double[] values = new double[grid.Count];
        double[] sigma = new double[grid.Count];
        var flags = new DensityFlags[grid.Count];
        for (int node = 0; node < grid.Count; node++)
        {
            (double station, double radius) = Place(grid, axis, layout, flowMetresPerPixel, node);
            (values[node], bool isBridged) = At(excesses, station, radius);
            UnitProfile? nearest = double.IsNaN(values[node]) ? null : Nearest(profiles, station);
            int ring = nearest is null ? 0 : Math.Min((int)Math.Round(radius), nearest.Sigma.Length - 1);
            sigma[node] = nearest is null ? double.NaN : nearest.Sigma[ring];
            DensityFlags bridged = isBridged ? DensityFlags.Bridged : DensityFlags.None;
            flags[node] = nearest is null ? DensityFlags.NotMeasured : nearest.Flags[ring] | bridged;
        }

        return new UnitField(values, sigma, flags);
    }

    /// <summary>
    /// Values at every node: between radii by a cubic through four, mirrored at the axis; between stations likewise where four reach as far out, else by the line between two, else the nearer one. NaN where no profile reaches.
    /// </summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="layout">Stations and radii.</param>
    /// <param name="flowMetresPerPixel">Scale in the flow plane, m/px.</param>
    /// <param name="profiles">Values by radius, one array for each station; null where there is none.</param>
    public static double[] Values(NodeGrid grid, AxisFrame axis, StationLayout layout, double flowMetresPerPixel, double[]?[] profiles)
    {
        double[] values = new double[grid.Count];
        for (int node = 0; node < grid.Count; node++)
        {
            (double station, double radius) = Place(grid, axis, layout, flowMetresPerPixel, node);
            values[node] = At(profiles, station, radius).Value;
        }

        return values;
    }

    private static (double Station, double Radius) Place(NodeGrid grid, AxisFrame axis, StationLayout layout, double flowMetresPerPixel, int node)
    {
        (double along, double right) = axis.Split(grid.X(node % grid.Columns), grid.Y(node / grid.Columns));
        return ((along - layout.First) / layout.Spacing, Math.Abs(right) * flowMetresPerPixel / layout.RadialStepMetres);
    }

    private static UnitProfile Nearest(UnitProfile?[] profiles, double station)
    {
        int place = Math.Clamp((int)Math.Round(station), 0, profiles.Length - 1);
        return profiles[place] ?? profiles[Math.Clamp((int)Math.Floor(station), 0, profiles.Length - 1)] ?? profiles[Math.Min(place + 1, profiles.Length - 1)]!;
    }

    /// <summary>Value at a place, and whether only one of the stations beside it reaches as far out and stands for it.</summary>
    private static (double Value, bool IsBridged) At(double[]?[] profiles, double station, double radius)
    {
        // The grid reaches at most a little beyond the outermost stations.
        double place = Math.Clamp(station, 0, profiles.Length - 1);
        if (Math.Abs(place - station) > 0.75)
            return (double.NaN, false);
        int first = Math.Clamp((int)Math.Floor(place), 0, Math.Max(0, profiles.Length - 2));
        int count = Math.Min(2, profiles.Length);
        if (Reaches(profiles, first - 1, Points, radius))
            (first, count) = (first - 1, Points);
        else if (!Reaches(profiles, first, count, radius))
            return (AtNearest(profiles, first, count, place, radius), true);
        Span<double> weights = stackalloc double[Points];
        LagrangePolynomial.Weights(place - first, weights[..count]);
        double value = 0;
        for (int k = 0; k < count; k++)
            value += weights[k] * AtRadius(profiles[first + k]!, radius);
        return (value, false);
    }

    /// <summary>Where only one of the stations beside a place reaches as far out, its value stands for the place.</summary>
    private static double AtNearest(double[]?[] profiles, int first, int count, double place, double radius)
    {
        int nearer = place - first < 0.5 ? 0 : count - 1;
        foreach (int k in (int[])[nearer, count - 1 - nearer])
        {
            if (Reaches(profiles, first + k, 1, radius))
                return AtRadius(profiles[first + k]!, radius);
        }

        return double.NaN;
    }

    private static bool Reaches(double[]?[] profiles, int first, int count, double radius)
    {
        if (first < 0 || first + count > profiles.Length)
            return false;
        for (int k = first; k < first + count; k++)
        {
            if (profiles[k] is not { } profile || radius > profile.Length - 1 + Beyond)
                return false;
        }

        return true;
    }

    private static double AtRadius(double[] excess, double radius)
    {
        Span<double> weights = stackalloc double[Points];
        int first = Math.Min((int)Math.Floor(radius) - 1, excess.Length - Points);
        LagrangePolynomial.Weights(radius - first, weights);
        double value = 0;
        for (int k = 0; k < Points; k++)
            value += weights[k] * excess[Math.Abs(first + k)];
        return value;
    }
}
