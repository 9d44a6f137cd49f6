using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Means over all directions of what pixels and B-spline interpolation do to a wave, tabulated by its frequency; see <see cref="PatternSpectrum"/>.</summary>
internal sealed class PixelSpectrum
{
    // The same steps as in PatternSpectrum: entry i is the frequency i * 1.2 / 96 in 1/px.
    private const int Steps = 96;
    private const double Highest = 1.2;
    private const int Directions = 48;
    private const int Aliases = 4;

    private readonly double[] energy = new double[Steps + 1];
    private readonly double[] bias = new double[Steps + 1];
    private readonly double[] residual = new double[Steps + 1];

    private PixelSpectrum(int order)
    {
        for (int i = 0; i <= Steps; i++)
        {
            for (int k = 0; k < Directions; k++)
            {
                (double sine, double cosine) = Math.SinCos((k + 0.5) * Math.PI / 2 / Directions);
                Add(i, order, i * Highest / Steps * cosine, i * Highest / Steps * sine);
            }
        }
    }

    /// <summary>For the cubic spline.</summary>
    public static PixelSpectrum Cubic { get; } = new(3);

    /// <summary>For the quintic spline.</summary>
    public static PixelSpectrum Quintic { get; } = new(5);

    /// <summary>Squared pixel response times squared derivative.</summary>
    public double Energy(int step) => energy[step];

    /// <summary>Squared pixel response times derivative times the difference of the first aliases.</summary>
    public double Bias(int step) => bias[step];

    /// <summary>Squared pixel response times the squared error of interpolation.</summary>
    public double Residual(int step) => residual[step];

    private void Add(int i, int order, double x, double y)
    {
        double pixel = Sinc(x) * Sinc(y);
        double weight = pixel * pixel / Directions;
        double derivative = Derivative(x);
        double squaresX = 0, squaresY = 0;
        for (int j = -Aliases; j <= Aliases; j++)
        {
            squaresX += Square(Cardinal(order, x, j));
            squaresY += Square(Cardinal(order, y, j));
        }

        // The mean of |sum of H (exp(2 pi i j u) - 1)|^2 over all u: squares of all aliases, and the square of their sum, which is what the wave itself lacks.
        double own = Cardinal(order, x, 0) * Cardinal(order, y, 0);
        energy[i] += weight * derivative * derivative;
        bias[i] += weight * derivative * (Cardinal(order, x, -1) - Cardinal(order, x, 1));
        residual[i] += weight * ((squaresX * squaresY) - (own * own) + Square(1 - own));
    }

    /// <summary>Response of the derivative at the pixels over i, rad/px.</summary>
    /// <param name="x">Frequency, 1/px.</param>
    public static double Derivative(double x) => SplineGradient.Response(2 * Math.PI * x);

    /// <summary>Response of the B-spline that passes through the samples, at the alias x + j.</summary>
    public static double Cardinal(int order, double x, int j)
    {
        double sum = 0;
        for (int k = -Aliases; k <= Aliases; k++)
            sum += Math.Pow(Sinc(x + k), order + 1);
        return Math.Pow(Sinc(x + j), order + 1) / sum;
    }

    /// <summary>sin(pi x) / (pi x).</summary>
    public static double Sinc(double x) => Math.Abs(x) < 1e-9 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);

    private static double Square(double x) => x * x;
}
