namespace BosFlow.Planning;

/// <summary>Deflection across a round column from its index.</summary>
/// <remarks>
/// eps(y) = (1 / n0) d/dy of the integral of (n - n0) along z = (1 / n0) integral of (d n / d r) (y / r) dz, r^2 = y^2 + z^2 (paraxial ray optics, e.g. M. Raffel 2015,
/// Exp. Fluids 56:60); a Gaussian of 1/e radius a has sqrt(2 pi) exp(-1/2) |delta0| = 1.52035 |delta0| at y = a / sqrt(2) (derived).
/// </remarks>
internal static class RoundProfile
{
    /// <summary>sqrt(2 pi) exp(-1/2): largest deflection of a Gaussian column over its index difference on the axis.</summary>
    public const double GaussianPeak = 1.5203469010662807;

    private const int Steps = 200;
    private const int Table = 256;

    /// <summary>Profile of a Gaussian column of 1/e radius 1.</summary>
    public static DeflectionProfile Gaussian() =>
        new(t => t * Math.Sqrt(2) * Math.Exp(0.5 - (t * t)), 4, odd: true);

    /// <summary>Deflection of any round column.</summary>
    /// <param name="slope">d(n - n0)/dr over radius, radius in m, slope in 1/m; 0 beyond the reach.</param>
    /// <param name="size">Unit of length of the profile, m.</param>
    /// <param name="reach">Radius beyond which there is nothing, m.</param>
    /// <param name="ambientIndex">n0, 1.</param>
    /// <returns>Largest deflection, rad, and the profile.</returns>
    public static (double Peak, DeflectionProfile Profile) Of(Func<double, double> slope, double size, double reach, double ambientIndex)
    {
        double[] table = [.. Enumerable.Range(0, Table + 1).Select(i => Math.Abs(Deflection(slope, i * reach / Table, reach)) / ambientIndex)];
        double peak = table.Max();
        double At(double t)
        {
            double position = t * size / reach * Table;
            int i = (int)position;
            return i >= Table ? 0 : (table[i] + ((position - i) * (table[i + 1] - table[i]))) / peak;
        }

        return (peak, new DeflectionProfile(At, reach / size, odd: true));
    }

    private static double Deflection(Func<double, double> slope, double y, double reach)
    {
        double half = Math.Sqrt(Math.Max(0, (reach * reach) - (y * y)));
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            double z = (i + 0.5) * half / Steps;
            double r = Math.Sqrt((y * y) + (z * z));
            sum += slope(r) * y / r;
        }

        return 2 * sum * half / Steps;
    }
}
