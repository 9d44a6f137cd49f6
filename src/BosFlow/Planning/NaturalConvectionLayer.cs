namespace BosFlow.Planning;

/// <summary>The laminar layer of air beside an isothermal vertical plate, Prandtl number 0.71.</summary>
/// <remarks>
/// Similarity equations of S. Ostrach 1953, NACA Report 1111: F''' + 3 F F'' - 2 F'^2 + theta = 0, theta'' + 3 Pr F theta' = 0, F = F' = 0 and theta = 1 at the wall, F' = theta = 0 far
/// away; eta = (y / x) (Gr / 4)^(1/4). Started with F''(0) = 0.6774, theta'(0) = -0.5021 (published 0.676 and 0.5046 for 0.72, from memory) and corrected by shooting.
/// Laminar up to Gr Pr = 1e9 (common practice, from memory).
/// </remarks>
internal sealed class NaturalConvectionLayer
{
    /// <summary>Prandtl number.</summary>
    public const double Prandtl = 0.71;

    /// <summary>Where the layer is taken to end, eta.</summary>
    public const double End = 8;

    private const int Steps = 400;
    private static readonly double[] Temperatures;
    private static readonly double WallSlopeValue;

    static NaturalConvectionLayer()
    {
        double shear = 0.6774;
        double slope = -0.5021;
        for (int turn = 0; turn < 8; turn++)
        {
            (double a0, double b0) = Far(shear, slope, null);
            const double Step = 1e-7;
            (double a1, double b1) = Far(shear + Step, slope, null);
            (double a2, double b2) = Far(shear, slope + Step, null);
            double aShear = (a1 - a0) / Step, bShear = (b1 - b0) / Step, aSlope = (a2 - a0) / Step, bSlope = (b2 - b0) / Step;
            double determinant = (aShear * bSlope) - (aSlope * bShear);
            shear -= ((a0 * bSlope) - (aSlope * b0)) / determinant;
            slope -= ((aShear * b0) - (a0 * bShear)) / determinant;
        }

        double[] temperatures = new double[Steps + 1];
        Far(shear, slope, temperatures);
        Temperatures = temperatures;
        WallSlopeValue = slope;
        WallShear = shear;
    }

    /// <summary>theta'(0), negative.</summary>
    public static double WallSlope => WallSlopeValue;

    /// <summary>F''(0).</summary>
    public static double WallShear { get; }

    /// <summary>theta: temperature excess over that of the wall.</summary>
    /// <param name="eta">Distance, 0 or more.</param>
    public static double Temperature(double eta)
    {
        double position = eta / End * Steps;
        int i = (int)position;
        return i >= Steps ? 0 : Temperatures[i] + ((position - i) * (Temperatures[i + 1] - Temperatures[i]));
    }

    /// <summary>Integrates outwards by the classical fourth-order method of Runge and Kutta.</summary>
    private static (double Speed, double Temperature) Far(double shear, double slope, double[]? temperatures)
    {
        const double H = End / Steps;
        Span<double> y = [0, 0, shear, 1, slope];
        Span<double> k1 = stackalloc double[5], k2 = stackalloc double[5], k3 = stackalloc double[5], k4 = stackalloc double[5], at = stackalloc double[5];
        for (int i = 0; i <= Steps; i++)
        {
            if (temperatures is not null)
                temperatures[i] = y[3];
            if (i == Steps)
                break;
            Derive(y, k1);
            Move(y, k1, H / 2, at);
            Derive(at, k2);
            Move(y, k2, H / 2, at);
            Derive(at, k3);
            Move(y, k3, H, at);
            Derive(at, k4);
            for (int j = 0; j < 5; j++)
                y[j] += H / 6 * (k1[j] + (2 * k2[j]) + (2 * k3[j]) + k4[j]);
        }

        return (y[1], y[3]);
    }

    private static void Derive(ReadOnlySpan<double> y, Span<double> k)
    {
        k[0] = y[1];
        k[1] = y[2];
        k[2] = (-3 * y[0] * y[2]) + (2 * y[1] * y[1]) - y[3];
        k[3] = y[4];
        k[4] = -3 * Prandtl * y[0] * y[4];
    }

    private static void Move(ReadOnlySpan<double> from, ReadOnlySpan<double> by, double step, Span<double> to)
    {
        for (int j = 0; j < to.Length; j++)
            to[j] = from[j] + (step * by[j]);
    }
}
