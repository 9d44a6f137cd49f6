namespace BosFlow.Density;

/// <summary>Traces rays through a round field of refractive index in the plane across its axis, curved as they are.</summary>
/// <remarks>
/// The eikonal equation d/ds (n dr/ds) = grad n (M. Born and E. Wolf, Principles of Optics, section 3.2) with T = n dr/ds and the coordinate along the
/// undisturbed ray as the variable; classical Runge-Kutta of fourth order. The index is the cubic Hermite interpolant of the profile, mirrored at the axis and flat
/// beyond its end.
/// </remarks>
internal sealed class RoundRayTracer
{
    private const int LeastSteps = 64;
    private readonly double[] excess;
    private readonly double[] slope;
    private readonly double step;
    private readonly double ambientIndex;

    /// <summary>A field given by its profile.</summary>
    /// <param name="excess">n - n0 at the radii 0, step, 2 step, ...</param>
    /// <param name="step">Distance of the radii, m.</param>
    /// <param name="ambientIndex">n0, 1.</param>
    public RoundRayTracer(double[] excess, double step, double ambientIndex)
    {
        this.excess = excess;
        this.step = step;
        this.ambientIndex = ambientIndex;
        slope = new double[excess.Length];
        for (int i = 1; i < excess.Length; i++)
            slope[i] = ((i + 1 < excess.Length ? excess[i + 1] : 0) - excess[i - 1]) / (2 * step);
    }

    /// <summary>n0 times the angle by which a ray is turned away from the axis.</summary>
    /// <param name="b">Distance at which the undisturbed ray passes the axis, m, 0 or more.</param>
    /// <param name="isCurved">Whether the ray may bend; false = the integral along the straight line, the paraxial result.</param>
    /// <returns>n0 times the angle, rad; positive away from the axis.</returns>
    public double Turn(double b, bool isCurved)
    {
        double end = excess.Length * step;
        if (b >= end)
            return 0;
        double half = Math.Sqrt((end * end) - (b * b));
        int steps = Math.Max(LeastSteps, (int)Math.Ceiling(2 * half / step));
        double stride = 2 * half / steps;
        var ray = new Ray(b, 0, ambientIndex);
        for (int i = 0; i < steps; i++)
        {
            double z = -half + (i * stride);
            Ray k1 = Derivative(ray, z, b, isCurved);
            Ray k2 = Derivative(ray.Plus(k1, stride / 2), z + (stride / 2), b, isCurved);
            Ray k3 = Derivative(ray.Plus(k2, stride / 2), z + (stride / 2), b, isCurved);
            Ray k4 = Derivative(ray.Plus(k3, stride), z + stride, b, isCurved);
            ray = ray.Plus(k1, stride / 6).Plus(k2, stride / 3).Plus(k3, stride / 3).Plus(k4, stride / 6);
        }

        return isCurved ? ambientIndex * Math.Atan2(ray.Tx, ray.Tz) : ray.Tx;
    }

    private Ray Derivative(in Ray ray, double z, double b, bool isCurved)
    {
        double x = isCurved ? ray.X : b;
        double r = Math.Sqrt((x * x) + (z * z));
        (double delta, double perRadius) = At(r);
        double gradient = r > 0 ? perRadius / r : 0;
        if (!isCurved)
            return new Ray(0, gradient * x, 0);
        double perZ = (ambientIndex + delta) / ray.Tz;
        return new Ray(ray.Tx / ray.Tz, perZ * gradient * x, perZ * gradient * z);
    }

    /// <summary>n - n0 and dn/dr at a radius.</summary>
    private (double Delta, double PerRadius) At(double r)
    {
        double place = r / step;
        int i = (int)place;
        if (i >= excess.Length)
            return (0, 0);
        double t = place - i;
        bool isLast = i + 1 == excess.Length;
        double f0 = excess[i];
        double f1 = isLast ? 0 : excess[i + 1];
        double d0 = slope[i] * step;
        double d1 = isLast ? 0 : slope[i + 1] * step;
        double c2 = (3 * (f1 - f0)) - (2 * d0) - d1;
        double c3 = (2 * (f0 - f1)) + d0 + d1;
        return (f0 + (t * (d0 + (t * (c2 + (t * c3))))), (d0 + (t * ((2 * c2) + (3 * t * c3)))) / step);
    }

    /// <summary>Position across the undisturbed ray and optical direction T = n dr/ds, or their derivatives along it.</summary>
    private readonly record struct Ray(double X, double Tx, double Tz)
    {
        public Ray Plus(in Ray derivative, double by) => new(X + (by * derivative.X), Tx + (by * derivative.Tx), Tz + (by * derivative.Tz));
    }
}
