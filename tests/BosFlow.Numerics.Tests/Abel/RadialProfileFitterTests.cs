using BosFlow.Numerics.Abel;

namespace BosFlow.Numerics.Tests.Abel;

public sealed class RadialProfileFitterTests
{
    [Fact]
    public void RadialSpline_Slope_AgreesWithQuadrature()
    {
        RadialSpline spline = new(9, 1.8);
        double[] coefficients = [1, -0.4, 0.7, 2, 1.1, -0.3, 0.2, 0.8, 1.4, -0.6];
        double Value(double r) => Sum(row => spline.AddValue(r, row), coefficients);
        foreach (double y in (double[])[1e-4, 0.03, 0.2, 0.377, 0.9, 1.75])
        {
            // G = 2 y INT f'(r) / r dq with r = sqrt(y^2 + q^2), seams at the knots; f' by central differences of the cubic pieces' own values.
            double integral = 0;
            double[] seams = [y, .. Enumerable.Range(1, 9).Select(k => k * 0.2).Where(r => r > y + 1e-12)];
            for (int k = 0; k + 1 < seams.Length; k++)
            {
                double from = Math.Sqrt((seams[k] * seams[k]) - (y * y)), to = Math.Sqrt((seams[k + 1] * seams[k + 1]) - (y * y));
                // q = from + (to - from) s^2 clusters points where 1/r is steep.
                integral += MathNet.Numerics.Integration.GaussLegendreRule.Integrate(
                    s =>
                    {
                        double q = from + ((to - from) * s * s * s * s), r = Math.Sqrt((y * y) + (q * q));
                        return Derivative(Value, r, seams[k], seams[k + 1]) / r * 4 * s * s * s * (to - from);
                    },
                    0,
                    1,
                    128);
            }

            Assert.Equal(2 * y * integral, Sum(row => spline.AddSlope(y, row), coefficients), 1e-8);
            Assert.Equal(-Sum(row => spline.AddSlope(y, row), coefficients), Sum(row => spline.AddSlope(-y, row), coefficients), 1e-14);
        }
    }

    [Fact]
    public void Fit_ExactSlopesOfSmoothProfile_IsRecovered()
    {
        double[] radii = [.. Enumerable.Range(0, 50).Select(i => i / 50.0)];
        RadialFit fit = RadialProfileFitter.Fit(Scattered(AbelPair.Jet, 200, 0, 3), radii);

        for (int i = 0; i < radii.Length; i++)
            Assert.Equal(AbelPair.Jet.Profile(radii[i]), fit.Value[i], 5e-4);
    }

    internal static RadialFitProblem Scattered(AbelPair pair, int count, double noise, int seed)
    {
        Random random = new(seed);
        double[] position = [.. Enumerable.Range(0, count).Select(_ => pair.OuterRadius * ((2 * random.NextDouble()) - 1))];
        double[] slope = [.. position.Select(y => Math.Sign(y) * pair.Slope(Math.Abs(y)))];
        return new RadialFitProblem
        {
            Position = position,
            Slope = [.. slope.Select(value => value + (noise * Normal(random)))],
            Sigma = [.. Enumerable.Repeat(Math.Max(noise, 1e-3), count)],
            OuterRadius = pair.OuterRadius,
        };
    }

    internal static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double Sum(Action<double[]> fill, double[] coefficients)
    {
        double[] row = new double[coefficients.Length];
        fill(row);
        return row.Zip(coefficients, (weight, value) => weight * value).Sum();
    }

    // Exact for a cubic: Richardson's difference inside one cell.
    private static double Derivative(Func<double, double> value, double r, double from, double to)
    {
        double step = (to - from) / 4, middle = (from + to) / 2;
        // The cubic through five points of the cell, differentiated at r.
        double offset = (r - middle) / step;
        double a = value(middle - (2 * step)), b = value(middle - step), c = value(middle), d = value(middle + step), e = value(Math.BitDecrement(middle + (2 * step)));
        double third = (e - (2 * d) + (2 * b) - a) / 2, second = d - (2 * c) + b, first = ((d - b) / 2) - (third / 6);
        return (first + (second * offset) + (third * offset * offset / 2)) / step;
    }
}
