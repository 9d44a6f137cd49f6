using MathNet.Numerics;

namespace BosFlow.Numerics.Spectral;

/// <summary>The transform of a uniform disc of area 1, from a table.</summary>
/// <remarks>
/// 2 J1(pi x) / (pi x), J1 the Bessel function of the first kind, x the diameter times the frequency. Cubic Hermite interpolation of exact values and slopes every 1/32; its
/// remainder is below 1e-7 (a test compares it with the exact function). Source: e.g. J. W. Goodman, Introduction to Fourier Optics, chapter 2 (from memory).
/// </remarks>
public static class DiscTransform
{
    // Below this the series' next term is under 1e-9.
    private const double Small = 1e-4;
    private const int StepsPerPeriod = 32;
    private const int TabledPeriods = 32;
    private const int Entries = (TabledPeriods * StepsPerPeriod) + 2;

    private static readonly double[] Values = [.. Enumerable.Range(0, Entries).Select(i => Exact(i / (double)StepsPerPeriod))];
    private static readonly double[] Slopes = [.. Enumerable.Range(0, Entries).Select(i => Slope(i / (double)StepsPerPeriod) / StepsPerPeriod)];

    /// <summary>2 J1(pi x) / (pi x).</summary>
    /// <param name="periods">x: diameter over wavelength, any number; the function is even.</param>
    /// <returns>1 at 0; first zero at 1.2197.</returns>
    public static double Value(double periods)
    {
        double scaled = Math.Abs(periods) * StepsPerPeriod;
        if (!(scaled < TabledPeriods * StepsPerPeriod))
            return Exact(Math.Abs(periods));
        int i = (int)scaled;
        double t = scaled - i;
        double rest = 1 - t;
        double start = Values[i] + (t * ((2 * Values[i]) + Slopes[i]));
        double end = Values[i + 1] + (rest * ((2 * Values[i + 1]) - Slopes[i + 1]));
        return (rest * rest * start) + (t * t * end);
    }

    private static double Exact(double periods)
    {
        double angle = Math.PI * periods;
        return angle < Small ? 1 - (angle * angle / 8) : 2 * SpecialFunctions.BesselJ(1, angle) / angle;
    }

    /// <summary>Derivative by x: d/dz (J1(z) / z) = -J2(z) / z.</summary>
    private static double Slope(double periods)
    {
        double angle = Math.PI * periods;
        return angle < Small ? -Math.PI * angle / 4 : -2 * Math.PI * SpecialFunctions.BesselJ(2, angle) / angle;
    }
}
