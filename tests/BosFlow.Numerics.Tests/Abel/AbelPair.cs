namespace BosFlow.Numerics.Tests.Abel;

/// <summary>A radial profile with its projection and the slope of that in closed form; tables of Abel's transform, checked apart by quadrature to 1e-12.</summary>
/// <param name="Name">Formula.</param>
/// <param name="OuterRadius">Radius where the profile ends, or is below 1e-6 of its peak.</param>
/// <param name="Profile">f(r).</param>
/// <param name="Projection">F(y), y >= 0.</param>
/// <param name="Slope">dF/dy, y >= 0.</param>
internal sealed record AbelPair(string Name, double OuterRadius, Func<double, double> Profile, Func<double, double> Projection, Func<double, double> Slope)
{
    private static readonly double RootPi = Math.Sqrt(Math.PI);

    public static AbelPair Gaussian { get; } = new("exp(-r^2)", 4, r => Math.Exp(-r * r), y => RootPi * Math.Exp(-y * y), y => -2 * y * RootPi * Math.Exp(-y * y));

    public static AbelPair TopHat { get; } = new("top-hat", 1, r => r < 1 ? 1 : 0, y => 2 * Root(y), y => y < 1 ? -2 * y / Root(y) : 0);

    public static AbelPair SemiEllipse { get; } = new("sqrt(1 - r^2)", 1, Root, y => Math.PI / 2 * Root(y) * Root(y), y => y < 1 ? -Math.PI * y : 0);

    public static AbelPair Parabola { get; } = new("1 - r^2", 1, r => Power(r, 1), y => 4 / 3.0 * Power(y, 1.5), y => -4 * y * Power(y, 0.5));

    public static AbelPair SquaredParabola { get; } = new("(1 - r^2)^2", 1, r => Power(r, 2), y => 16 / 15.0 * Power(y, 2.5), y => -16 / 3.0 * y * Power(y, 1.5));

    public static AbelPair Jet { get; } = new("(1 - r^2)^3", 1, r => Power(r, 3), y => 32 / 35.0 * Power(y, 3.5), y => -32 / 5.0 * y * Power(y, 2.5));

    public static AbelPair Ring { get; } = new(
        "r^2 exp(-r^2)",
        4.5,
        r => r * r * Math.Exp(-r * r),
        y => RootPi * ((y * y) + 0.5) * Math.Exp(-y * y),
        y => RootPi * y * (1 - (2 * y * y)) * Math.Exp(-y * y));

    public static AbelPair TwoPieces { get; } = new("two parabolas", 1, TwoPiecesProfile, TwoPiecesProjection, TwoPiecesSlope);

    /// <summary>Smooth enough for a bound at the nodes: the profile and its first derivative are bounded inside, and the profile is continuous.</summary>
    public static IReadOnlyList<AbelPair> Smooth { get; } = [Gaussian, Parabola, SquaredParabola, Ring, TwoPieces];

    public static IReadOnlyList<AbelPair> All { get; } = [Gaussian, TopHat, SemiEllipse, Parabola, SquaredParabola, Jet, Ring, TwoPieces];

    public double Spacing(int nodes) => OuterRadius / (nodes - 1);

    public double[] Sample(Func<double, double> function, int nodes) =>
        [.. Enumerable.Range(0, nodes).Select(i => i == nodes - 1 && OuterRadius == 1 ? 0 : function(i * Spacing(nodes)))];

    public override string ToString() => Name;

    private static double Root(double r) => Math.Sqrt(Math.Max(0, 1 - (r * r)));

    private static double Power(double r, double exponent) => Math.Pow(Math.Max(0, 1 - (r * r)), exponent);

    private static double TwoPiecesProfile(double r) => r <= 0.5 ? 1 - (2 * r * r) : r < 1 ? 2 * (1 - r) * (1 - r) : 0;

    private static double TwoPiecesProjection(double y)
    {
        if (y >= 1)
            return 0;
        double one = Root(y), half = y < 0.5 ? Math.Sqrt(0.25 - (y * y)) : 0;
        double both = 4 / 3.0 * one * (1 + (2 * y * y));
        if (y == 0)
            return both - (2 / 3.0 * half);
        return y < 0.5
            ? both - (2 / 3.0 * half * (1 + (8 * y * y))) - (4 * y * y * Math.Log((1 + one) / (0.5 + half)))
            : both - (4 * y * y * Math.Log((1 + one) / y));
    }

    // G = 2 y INT f'(r) / sqrt(r^2 - y^2) dr with f' = -4 r inside and -4 (1 - r) outside.
    private static double TwoPiecesSlope(double y)
    {
        if (y is 0 or >= 1)
            return 0;
        double one = Root(y), half = y < 0.5 ? Math.Sqrt(0.25 - (y * y)) : 0, from = y < 0.5 ? 0.5 : y;
        return 2 * y * ((-4 * half) - (4 * Math.Log((1 + one) / (from + half))) + (4 * (one - half)));
    }
}
