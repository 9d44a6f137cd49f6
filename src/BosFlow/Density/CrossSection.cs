using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>Spreads radial profiles over the nodes of the picture: the cross-section through the axis.</summary>
internal static class CrossSection
{
    private const int Points = 4;

    /// <summary>Interpolates the profiles at every node: between radii by a cubic through four, mirrored at the axis; between stations likewise where four were inverted, else by the line.</summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="axis">The axis.</param>
    /// <param name="layout">Stations and radii.</param>
    /// <param name="flowMetresPerPixel">Scale in the flow plane, m/px.</param>
    /// <param name="profiles">One for each station.</param>
    public static UnitField Of(NodeGrid grid, AxisFrame axis, StationLayout layout, double flowMetresPerPixel, UnitProfile?[] profiles)
    {
        double[] values = new double[grid.Count];
        double[] sigma = new double[grid.Count];
        var flags = new DensityFlags[grid.Count];
        for (int node = 0; node < grid.Count; node++)
        {
            (double along, double right) = axis.Split(grid.X(node % grid.Columns), grid.Y(node / grid.Columns));
            double radius = Math.Abs(right) * flowMetresPerPixel / layout.RadialStepMetres;
            double station = (along - layout.First) / layout.Spacing;
            (values[node], sigma[node], flags[node]) = At(profiles, station, radius);
        }

        return new UnitField(values, sigma, flags);
    }

    private static (double Value, double Sigma, DensityFlags Flag) At(UnitProfile?[] profiles, double station, double radius)
    {
        // The grid reaches at most a little beyond the outermost stations.
        double place = Math.Clamp(station, 0, profiles.Length - 1);
        if (Math.Abs(place - station) > 0.75)
            return (double.NaN, double.NaN, DensityFlags.NotMeasured);
        int first = Math.Clamp((int)Math.Floor(place), 0, Math.Max(0, profiles.Length - 2));
        int count = Math.Min(2, profiles.Length);
        if (Reaches(profiles, first - 1, Points, radius))
            (first, count) = (first - 1, Points);
        else if (!Reaches(profiles, first, count, radius))
            return (double.NaN, double.NaN, DensityFlags.NotMeasured);
        Span<double> weights = stackalloc double[Points];
        LagrangePolynomial.Weights(place - first, weights[..count]);
        double value = 0;
        for (int k = 0; k < count; k++)
            value += weights[k] * AtRadius(profiles[first + k]!.Excess, radius);
        UnitProfile nearest = profiles[(int)Math.Round(place)] ?? profiles[first]!;
        int ring = Math.Min((int)Math.Round(radius), nearest.Sigma.Length - 1);
        return (value, nearest.Sigma[ring], nearest.Flags[ring]);
    }

    private static bool Reaches(UnitProfile?[] profiles, int first, int count, double radius)
    {
        if (first < 0 || first + count > profiles.Length)
            return false;
        for (int k = first; k < first + count; k++)
        {
            if (profiles[k] is not { } profile || radius > profile.Excess.Length - 1)
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
