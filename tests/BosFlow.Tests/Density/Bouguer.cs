namespace BosFlow.Tests.Density;

/// <summary>Turn of a ray in a round field by Bouguer's formula n r sin(i) = const (M. Born and E. Wolf, Principles of Optics, section 3.2, from memory), by quadrature.</summary>
/// <remarks>
/// With x = n r and a = n0 b the angle toward the axis is -2 a times the integral of (d ln n / dx) / sqrt(x^2 - a^2) from a outward; x^2 = a^2 + t^2 makes the integrand
/// smooth and even in t, which the trapezium rule integrates to rounding once it has decayed.
/// </remarks>
internal static class Bouguer
{
    private const int Steps = 2000;

    /// <summary>Angle away from the axis, rad.</summary>
    /// <param name="b">Distance at which the undisturbed ray passes the axis.</param>
    /// <param name="ambientIndex">n0.</param>
    /// <param name="excess">n - n0 and its derivative at a radius.</param>
    /// <param name="reach">Radius beyond which the field has decayed.</param>
    public static double Turn(double b, double ambientIndex, Func<double, (double Value, double Slope)> excess, double reach)
    {
        double a = ambientIndex * b;
        double stride = ambientIndex * reach / Steps;
        double sum = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double x = Math.Sqrt((a * a) + (i * stride * i * stride));
            if (x == 0)
                continue;
            double r = Radius(x, ambientIndex, excess);
            (double value, double slope) = excess(r);
            double n = ambientIndex + value;
            sum += (i == 0 ? 0.5 : 1) * slope / (n * (n + (r * slope))) / x;
        }

        return 2 * a * sum * stride;
    }

    /// <summary>The radius at which n r = x, by Newton's method.</summary>
    private static double Radius(double x, double ambientIndex, Func<double, (double Value, double Slope)> excess)
    {
        double r = x / ambientIndex;
        for (int turn = 0; turn < 20; turn++)
        {
            (double value, double slope) = excess(r);
            double n = ambientIndex + value;
            r -= ((n * r) - x) / (n + (r * slope));
        }

        return r;
    }
}
