using MathNet.Numerics;

namespace BosFlow.Optics;

/// <summary>What averaging leaves of a sinusoid.</summary>
public static class FrequencyResponse
{
    // Below this the series' next term is under 1e-9.
    private const double Small = 1e-4;
    private const int StepsPerPeriod = 32;
    private const int TabledPeriods = 32;

    private static readonly double[] DiscValues = [.. Enumerable.Range(0, (TabledPeriods * StepsPerPeriod) + 2).Select(i => ExactDisc(i / (double)StepsPerPeriod))];
    private static readonly double[] DiscSlopes = [.. Enumerable.Range(0, (TabledPeriods * StepsPerPeriod) + 2).Select(i => DiscSlope(i / (double)StepsPerPeriod) / StepsPerPeriod)];

    /// <summary>Average over a length: sin(pi x) / (pi x).</summary>
    /// <param name="periods">x: length over wavelength, 1.</param>
    /// <returns>1; negative where the average turns the sign.</returns>
    public static double Box(double periods)
    {
        double angle = Math.PI * Math.Abs(periods);
        return angle < Small ? 1 - (angle * angle / 6) : Math.Sin(angle) / angle;
    }

    /// <summary>Average over a disc: 2 J1(pi x) / (pi x), J1 the Bessel function of the first kind.</summary>
    /// <param name="periods">x: diameter over wavelength, 1.</param>
    /// <returns>1; first zero at x = 1.2197. Error below 1e-7: cubic between exact values and slopes every 1/32.</returns>
    /// <remarks>Source: transform of the uniform disc, e.g. J. W. Goodman, Introduction to Fourier Optics, chapter 2 (from memory).</remarks>
    public static double Disc(double periods)
    {
        double scaled = Math.Abs(periods) * StepsPerPeriod;
        if (!(scaled < TabledPeriods * StepsPerPeriod))
            return ExactDisc(Math.Abs(periods));
        int i = (int)scaled;
        double t = scaled - i;
        double rest = 1 - t;
        double start = DiscValues[i] + (t * ((2 * DiscValues[i]) + DiscSlopes[i]));
        double end = DiscValues[i + 1] + (rest * ((2 * DiscValues[i + 1]) - DiscSlopes[i + 1]));
        return (rest * rest * start) + (t * t * end);
    }

    private static double ExactDisc(double periods)
    {
        double angle = Math.PI * periods;
        return angle < Small ? 1 - (angle * angle / 8) : 2 * SpecialFunctions.BesselJ(1, angle) / angle;
    }

    /// <summary>Derivative by the number of periods: d/dz (J1(z) / z) = -J2(z) / z.</summary>
    private static double DiscSlope(double periods)
    {
        double angle = Math.PI * periods;
        return angle < Small ? -Math.PI * angle / 4 : -2 * Math.PI * SpecialFunctions.BesselJ(2, angle) / angle;
    }
}
