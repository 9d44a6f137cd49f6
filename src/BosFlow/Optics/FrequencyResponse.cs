using BosFlow.Numerics.Spectral;

namespace BosFlow.Optics;

/// <summary>What averaging leaves of a sinusoid.</summary>
public static class FrequencyResponse
{
    // Below this the series' next term is under 1e-9.
    private const double Small = 1e-4;

    /// <summary>Average over a length, such as a window or a pixel: sin(pi x) / (pi x).</summary>
    /// <param name="periods">x: length over wavelength, 1.</param>
    /// <returns>1; negative where the average turns the sign.</returns>
    public static double Box(double periods)
    {
        double angle = Math.PI * Math.Abs(periods);
        return angle < Small ? 1 - (angle * angle / 6) : Math.Sin(angle) / angle;
    }

    /// <summary>Average over a disc, such as the blur at the flow: 2 J1(pi x) / (pi x), J1 the Bessel function of the first kind.</summary>
    /// <param name="periods">x: diameter over wavelength, 1.</param>
    /// <returns>1; first zero at x = 1.2197.</returns>
    /// <remarks>Source: transform of the uniform disc, e.g. J. W. Goodman, Introduction to Fourier Optics, chapter 2 (from memory).</remarks>
    public static double Disc(double periods) => DiscTransform.Value(periods);
}
