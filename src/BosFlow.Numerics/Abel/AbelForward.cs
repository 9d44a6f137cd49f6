namespace BosFlow.Numerics.Abel;

/// <summary>Projection and slope of a sampled radial profile, taken as linear between its nodes r_i = i * spacing and 0 beyond the last one.</summary>
public static class AbelForward
{
    /// <summary>The projection at one distance from the axis.</summary>
    /// <param name="profile">f at the nodes, 2 or more; the last one must be 0.</param>
    /// <param name="spacing">Distance of the nodes, above 0.</param>
    /// <param name="y">Distance from the axis, of either sign.</param>
    /// <returns>F(y) = 2 INT f r dr / sqrt(r^2 - y^2), exact for the linear pieces.</returns>
    /// <exception cref="ArgumentException">The last value is not 0.</exception>
    public static double Projection(ReadOnlySpan<double> profile, double spacing, double y)
    {
        CheckEnd(profile);
        double distance = Math.Abs(y) / spacing, sum = 0;
        for (int j = (int)distance; j < profile.Length - 1; j++)
        {
            double slope = profile[j + 1] - profile[j];
            (_, double linear, double square) = KernelIntegrals.Over(Math.Max(j, distance), j + 1, distance);
            sum += ((profile[j] - (slope * j)) * linear) + (slope * square);
        }

        return 2 * spacing * sum;
    }

    /// <summary>The slope of the projection at one distance from the axis.</summary>
    /// <param name="profile">f at the nodes, 2 or more; the last one must be 0.</param>
    /// <param name="spacing">Distance of the nodes, above 0.</param>
    /// <param name="y">Distance from the axis, of either sign; the slope is odd.</param>
    /// <returns>G(y) = 2 y INT f'(r) dr / sqrt(r^2 - y^2), exact for the linear pieces.</returns>
    /// <exception cref="ArgumentException">The last value is not 0: the slope would be infinite there.</exception>
    public static double Slope(ReadOnlySpan<double> profile, double spacing, double y)
    {
        CheckEnd(profile);
        double distance = Math.Abs(y) / spacing, sum = 0;
        if (distance == 0)
            return 0;
        for (int j = (int)distance; j < profile.Length - 1; j++)
            sum += (profile[j + 1] - profile[j]) * KernelIntegrals.Over(Math.Max(j, distance), j + 1, distance).Constant;
        return 2 * Math.Sign(y) * distance * sum;
    }

    private static void CheckEnd(ReadOnlySpan<double> profile)
    {
        if (profile.Length < 2 || profile[^1] != 0)
            throw new ArgumentException("A profile needs 2 nodes or more, and its last value must be 0: it is 0 beyond that.");
    }
}
