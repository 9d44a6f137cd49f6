using BosFlow.Numerics.Abel;
using BosFlow.TestKit;

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

    [Theory]
    [InlineData(StrengthChoice.MaximumLikelihood)]
    [InlineData(StrengthChoice.CrossValidation)]
    [InlineData(StrengthChoice.Discrepancy)]
    public void Sigma_OfTheChosenStrength_IsTheScatterOfDraws(StrengthChoice choice)
    {
        const int Draws = 300;
        double[] radii = [0, 0.1, 0.35, 0.7, 0.95];
        RadialFitProblem problem = Scattered(AbelPair.Jet, 60, 0.05, 4) with { Choice = choice };
        RadialFit fit = RadialProfileFitter.Fit(problem, radii);
        RadialFitProblem repeated = problem with { Strength = fit.Strength };
        Random random = new(5);

        double[] squares = new double[radii.Length];
        for (int draw = 0; draw < Draws; draw++)
        {
            double[] noise = [.. problem.Slope.Select(_ => 0.05 * Normal(random))];
            RadialFit drawn = RadialProfileFitter.Fit(repeated with { Slope = noise }, radii);
            for (int i = 0; i < radii.Length; i++)
                squares[i] += drawn.Value[i] * drawn.Value[i] / Draws;
        }

        for (int i = 0; i < radii.Length; i++)
            Assert.Equal(1, Math.Sqrt(squares[i]) / fit.Sigma[i], Tolerances.StandardErrors / Math.Sqrt(2.0 * Draws));
    }

    [Fact]
    public void Fit_StatedCorrelation_KeepsCommonErrorsOutOfTheProfile()
    {
        // Moving averages of two draws: neighbours share half of their variance.
        const int Count = 120;
        const double Noise = 0.1;
        double[] position = [.. Enumerable.Range(0, Count).Select(k => -0.99 + (1.98 * k / (Count - 1)))];
        double[] correlation = new double[Count * Count], radii = [.. Enumerable.Range(0, 40).Select(i => i / 40.0)];
        for (int i = 0; i < Count; i++)
        {
            for (int j = 0; j < Count; j++)
                correlation[(i * Count) + j] = Math.Abs(i - j) switch { 0 => 1, 1 => 0.5, _ => 0 };
        }

        (double stated, double ignored, double chi) = (0, 0, 0);
        for (int draw = 0; draw < 20; draw++)
        {
            Random random = new(draw);
            double[] white = [.. Enumerable.Range(0, Count + 1).Select(_ => Noise * Normal(random) / Math.Sqrt(2))];
            RadialFitProblem problem = new()
            {
                Position = position,
                Slope = [.. position.Select((y, k) => (Math.Sign(y) * AbelPair.Jet.Slope(Math.Abs(y))) + white[k] + white[k + 1])],
                Sigma = [.. Enumerable.Repeat(Noise, Count)],
                OuterRadius = 1,
            };
            RadialFit fit = RadialProfileFitter.Fit(problem with { Correlation = correlation }, radii);
            stated += Squares(fit, radii);
            ignored += Squares(RadialProfileFitter.Fit(problem, radii), radii);
            chi += fit.Value.Select((value, i) => Math.Pow((value - AbelPair.Jet.Profile(radii[i])) / fit.Sigma[i], 2)).Average();
        }

        Assert.True(stated < 0.97 * ignored, $"{stated} and {ignored}");
        // Errors of a profile are correlated along the radius: 20 draws count for few independent numbers, and smoothing adds a little.
        Assert.InRange(Math.Sqrt(chi / 20), 0.7, 1.4);

        static double Squares(RadialFit fit, double[] radii) =>
            fit.Value.Select((value, i) => Math.Pow(value - AbelPair.Jet.Profile(radii[i]), 2)).Sum();
    }

    [Fact]
    public void Covariance_OfIndependentErrors_HasTheSigmasOnItsDiagonal()
    {
        double[] radii = [0, 0.2, 0.5, 0.9];
        RadialFitProblem problem = Scattered(AbelPair.Jet, 40, 0.05, 9);
        RadialFit fit = RadialProfileFitter.Fit(problem, radii);
        double[] independent = new double[40 * 40];
        for (int k = 0; k < 40; k++)
            independent[k * 41] = problem.Sigma[k] * problem.Sigma[k];

        double[] covariance = fit.Covariance(independent);

        for (int i = 0; i < 4; i++)
            Assert.Equal(fit.Sigma[i] * fit.Sigma[i], covariance[i * 5], 1e-9 * covariance[i * 5]);
        for (int i = 0; i < 4; i++)
            Assert.Equal(fit.Value[i], problem.Slope.Select((slope, k) => slope * fit.Matrix[(i * 40) + k]).Sum(), 1e-9);
    }

    [Fact]
    public void ResidualRms_NoiseAsStated_IsNearOne()
    {
        double[] rms = [.. Enumerable.Range(0, 30).Select(seed => RadialProfileFitter.Fit(Scattered(AbelPair.Jet, 150, 0.05, seed), [0]).ResidualRms)];

        // Each scatters by 1 / sqrt(2 * 140).
        Assert.Equal(1, rms.Average(), Tolerances.StandardErrors / Math.Sqrt(2 * 140 * 30));
    }

    [Fact]
    public void ResolutionWidth_GrowsWithStrength_AndIsThatOfABlurredShell()
    {
        RadialFitProblem problem = Scattered(AbelPair.Jet, 800, 0.05, 2);
        double[] widths = [.. ((double[])[1, 100, 1e4]).Select(strength => RadialProfileFitter.Fit(problem with { Strength = strength }, [0.5]).ResolutionWidth[0])];

        Assert.True(widths[0] < widths[1] && widths[1] < widths[2]);
        // A narrow shell at the radius comes out spread: its peak times the kernel's width is the shell's area, as for a box, within the kernel's shape.
        double Shell(double r) => Math.Exp(-Math.Pow((r - 0.5) / 0.02, 2));
        double[] profile = [.. Enumerable.Range(0, 1001).Select(i => i == 1000 ? 0 : Shell(i / 1000.0))];
        double[] slope = [.. problem.Position.Select(y => AbelForward.Slope(profile, 0.001, y))];
        double peak = RadialProfileFitter.Fit(problem with { Slope = slope, Strength = 100 }, [0.5]).Value[0];
        double area = 0.02 * Math.Sqrt(Math.PI);
        Assert.InRange(area / peak / widths[1], 0.6, 1.3);
    }

    [Fact]
    public void Fit_MissingAndOuterSlopes_AreNotUsed()
    {
        RadialFitProblem problem = Scattered(AbelPair.Jet, 50, 0.05, 8);
        double[] radii = [0, 0.4, 1, 1.3];
        RadialFit expected = RadialProfileFitter.Fit(problem, radii);

        RadialFit fit = RadialProfileFitter.Fit(
            problem with
            {
                Position = [.. problem.Position, 0.3, 1.2, 0, double.NaN],
                Slope = [.. problem.Slope, double.NaN, 5, 5, 5],
                Sigma = [.. problem.Sigma, double.NaN, 1, 1, 1],
            },
            radii);

        Assert.Equal(expected.Value, fit.Value);
        Assert.Equal(0, fit.Value[2]);
        Assert.Equal(0, fit.Sigma[3]);
        Assert.True(double.IsNaN(fit.ResolutionWidth[3]));
    }

    [Fact]
    public void Fit_BadInput_IsRefusedWithTheNumber()
    {
        RadialFitProblem problem = Scattered(AbelPair.Jet, 10, 0.05, 8);
        string Message(RadialFitProblem bad) => Assert.Throws<ArgumentException>(() => RadialProfileFitter.Fit(bad, [0])).Message;

        Assert.Contains("Slope 0", Message(problem with { Sigma = new double[10] }), StringComparison.Ordinal);
        Assert.Contains("-1", Message(problem with { OuterRadius = -1 }), StringComparison.Ordinal);
        Assert.Contains("0 slopes", Message(problem with { OuterRadius = 1e-9 }), StringComparison.Ordinal);
        Assert.Contains("not positive definite", Message(problem with { Correlation = [.. Enumerable.Repeat(1.0, 100)] }), StringComparison.Ordinal);
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
