namespace BosFlow.Camera;

/// <summary>What a lens does to the slopes (x, y) of a ray against its axis.</summary>
/// <remarks>
/// Pinhole: x' = x R + 2 p1 x y + p2 (r^2 + 2 x^2), y' = y R + p1 (r^2 + 2 y^2) + 2 p2 x y, R = 1 + k1 r^2 + k2 r^4 + k3 r^6
/// (A. E. Conrady 1919, D. C. Brown 1971, in the notation of OpenCV's documentation of its camera calibration).
/// Fisheye: (x', y') = (x, y) t' / r with t = atan r, t' = t (1 + k1 t^2 + k2 t^4 + k3 t^6 + k4 t^8)
/// (J. Kannala and S. S. Brandt 2006, same notation). Both hold up to the radius where they turn back.
/// </remarks>
internal sealed class LensSlope
{
    // Below it the quotients of the fisheye lose digits and their series are exact to 1e-16.
    private const double SmallRadius = 1e-4;
    private const int MostStartSteps = 100;

    private readonly LensParameters p;
    private readonly bool fisheye;
    private readonly double fourth;

    // Largest r (pinhole) or angle (fisheye) up to which the polynomial rises.
    private readonly double largest;

    public LensSlope(LensParameters parameters)
    {
        p = parameters;
        fisheye = parameters.Kind == LensKind.Fisheye;
        fourth = fisheye ? parameters.Radial4 : 0;
        double turn = TurningPoint();
        largest = fisheye ? Math.Min(turn, Math.PI / 2) : turn;
    }

    /// <summary>Whether the lens means something for a ray.</summary>
    public bool Covers(double x, double y)
    {
        double r = double.Hypot(x, y);
        return (fisheye ? Math.Atan(r) : r) < largest;
    }

    /// <summary>Slopes behind the lens; NaN beyond the turning point.</summary>
    public (double X, double Y) Bend(double x, double y)
    {
        if (!Covers(x, y))
            return (double.NaN, double.NaN);
        double r2 = (x * x) + (y * y);
        if (fisheye)
        {
            double factor = Fisheye(Math.Sqrt(r2)).Factor;
            return (factor * x, factor * y);
        }

        double radial = 1 + (r2 * (p.Radial1 + (r2 * (p.Radial2 + (r2 * p.Radial3)))));
        return (
            (x * radial) + (2 * p.Tangential1 * x * y) + (p.Tangential2 * (r2 + (2 * x * x))),
            (y * radial) + (p.Tangential1 * (r2 + (2 * y * y))) + (2 * p.Tangential2 * x * y));
    }

    /// <summary>Derivatives of <see cref="Bend"/>; NaN beyond the turning point.</summary>
    public LensSlopes SlopesAt(double x, double y)
    {
        if (!Covers(x, y))
            return new LensSlopes(double.NaN, double.NaN, double.NaN, double.NaN);
        double r2 = (x * x) + (y * y);
        if (fisheye)
        {
            (double factor, double growth) = Fisheye(Math.Sqrt(r2));
            return new LensSlopes(factor + (growth * x * x), growth * x * y, growth * x * y, factor + (growth * y * y));
        }

        double radial = 1 + (r2 * (p.Radial1 + (r2 * (p.Radial2 + (r2 * p.Radial3)))));
        double twice = 2 * (p.Radial1 + (r2 * ((2 * p.Radial2) + (r2 * 3 * p.Radial3))));
        double cross = (twice * x * y) + (2 * p.Tangential1 * x) + (2 * p.Tangential2 * y);
        return new LensSlopes(
            radial + (twice * x * x) + (2 * p.Tangential1 * y) + (6 * p.Tangential2 * x), cross,
            cross, radial + (twice * y * y) + (6 * p.Tangential1 * y) + (2 * p.Tangential2 * x));
    }

    /// <summary>The ray that is bent to (x, y) but for the tangential terms: where Newton's iteration begins.</summary>
    public (double X, double Y) Start(double x, double y)
    {
        double bent = double.Hypot(x, y);
        if (bent == 0)
            return (0, 0);
        // The polynomial rises from 0 to the turning point: Newton's steps, halved wherever they would leave what encloses the answer.
        double low = 0;
        double high = double.IsFinite(largest) ? largest : double.MaxValue;
        double t = Math.Min(bent, 0.99 * high);
        for (int step = 0; step < MostStartSteps; step++)
        {
            double miss = Bent(t) - bent;
            if (miss > 0)
                high = t;
            else
                low = t;
            double next = t - (miss / Rise(t));
            if (!(next >= low && next <= high))
                next = double.IsFinite(largest) || miss > 0 ? (low + high) / 2 : 2 * t;
            if (Math.Abs(next - t) < 1e-15 * (1 + t))
                break;
            t = next;
        }

        double r = fisheye ? Math.Tan(Math.Min(t, 0.99999 * largest)) : Math.Min(t, 0.99999 * largest);
        return (r * x / bent, r * y / bent);
    }

    private double Bent(double t)
    {
        double t2 = t * t;
        return t * (1 + (t2 * (p.Radial1 + (t2 * (p.Radial2 + (t2 * (p.Radial3 + (t2 * fourth))))))));
    }

    private double Rise(double t)
    {
        double t2 = t * t;
        return 1 + (t2 * ((3 * p.Radial1) + (t2 * ((5 * p.Radial2) + (t2 * ((7 * p.Radial3) + (t2 * 9 * fourth)))))));
    }

    // t' / r, and its derivative along r over r.
    private (double Factor, double Growth) Fisheye(double r)
    {
        if (r < SmallRadius)
            return (1 + ((p.Radial1 - (1 / 3.0)) * r * r), 2 * (p.Radial1 - (1 / 3.0)));
        double t = Math.Atan(r);
        double factor = Bent(t) / r;
        return (factor, ((Rise(t) / (1 + (r * r))) - factor) / (r * r));
    }

    // Looked for step by step and then by halves: a lens that bends back within a step and forth again is none.
    private double TurningPoint()
    {
        const double Farthest = 10; // 84 degrees from the axis
        const double Step = 0.005;
        for (double t = Step; t <= Farthest; t += Step)
        {
            if (Rise(t) > 0)
                continue;
            (double rising, double falling) = (t - Step, t);
            for (int halving = 0; halving < 50; halving++)
            {
                double middle = (rising + falling) / 2;
                (rising, falling) = Rise(middle) > 0 ? (middle, falling) : (rising, middle);
            }

            return rising;
        }

        return double.PositiveInfinity;
    }
}
