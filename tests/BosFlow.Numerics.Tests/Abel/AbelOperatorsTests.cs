using BosFlow.Numerics.Abel;
using BosFlow.TestKit;

namespace BosFlow.Numerics.Tests.Abel;

public sealed class AbelOperatorsTests
{
    [Fact]
    public void ThreePoint_FirstEntries_AreThoseComputedApart()
    {
        // Computed by an independent script from the formulas of Dasch 1992 (recalled from memory), six digits.
        double[] expected =
        [
            0.524549, -0.292896, -0.100695, -0.038732,
            0.103642, 0.206553, -0.164713, -0.048907,
            0, 0.074124, 0.154365, -0.113192,
            0, 0, 0.060761, 0.128642,
        ];

        AbelOperator three = AbelOperators.ThreePoint(60, 1);

        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
                Assert.Equal(expected[(4 * i) + j], three.Matrix[(i * 60) + j], 1e-6);
        }
    }

    [Theory]
    [InlineData(0.2, 1.87e-2, 1.48e-2)]
    [InlineData(0.1, 4.94e-3, 3.53e-3)]
    [InlineData(0.05, 1.25e-3, 8.6e-4)]
    public void ThreeAndTwoPoint_Gaussian_HaveTheErrorsComputedApart(double spacing, double threePoint, double twoPoint)
    {
        int nodes = (int)Math.Round(6 / spacing) + 1;
        double[] projection = [.. Enumerable.Range(0, nodes).Select(i => AbelPair.Gaussian.Projection(i * spacing))];
        double[] slope = [.. Enumerable.Range(0, nodes).Select(i => AbelPair.Gaussian.Slope(i * spacing))];
        double Worst(double[] values) => values.Select((value, i) => Math.Abs(value - Math.Exp(-Math.Pow(i * spacing, 2)))).Max();

        Assert.Equal(threePoint, Worst(AbelOperators.ThreePoint(nodes, spacing).Apply(projection)), 0.01 * threePoint);
        Assert.Equal(twoPoint, Worst(AbelOperators.TwoPoint(nodes).Apply(slope)), 0.01 * twoPoint);
    }

    [Fact]
    public void Sigma_OfUnitNoise_IsTheGainComputedApart()
    {
        double[] unit = [.. Enumerable.Repeat(1.0, 100)];

        double[] three = AbelOperators.ThreePoint(100, 1).Sigma(unit), two = AbelOperators.TwoPoint(100).Sigma(unit);

        foreach ((int node, double gain) in ((int, double)[])[(0, 0.611), (1, 0.290), (5, 0.134), (20, 0.067), (50, 0.043)])
            Assert.Equal(gain, three[node], 0.001);
        foreach ((int node, double gain) in ((int, double)[])[(0, 0.512), (1, 0.410), (5, 0.221), (20, 0.122), (50, 0.079)])
            Assert.Equal(gain, two[node], 0.001);
    }

    [Fact]
    public void OnionPeeling_ShellsOfConstantValue_AreExact()
    {
        double[] shells = [.. Enumerable.Range(0, 12).Select(i => Math.Sin(i) + 2)];
        const double Spacing = 0.3;
        double[] projection = new double[12];
        for (int i = 0; i < 12; i++)
        {
            for (int j = i; j < 12; j++)
            {
                double Half(double edge) => edge > i ? Math.Sqrt((edge * edge) - (i * i)) : 0;
                projection[i] += 2 * Spacing * shells[j] * (Half(j + 0.5) - Half(j - 0.5));
            }
        }

        double[] profile = AbelOperators.OnionPeeling(12, Spacing).Apply(projection);

        for (int i = 0; i < 12; i++)
            Assert.Equal(shells[i], profile[i], Tolerances.DoubleKernel * 100);
    }

    [Fact]
    public void TwoPoint_LinearProfile_IsExactForItsOwnSlope()
    {
        // Slope linear between nodes, arbitrary: compare with the integral by a fine rule in q.
        double[] slope = [0, -0.7, -1.9, -1.1, -0.4, -0.2];

        double[] profile = AbelOperators.TwoPoint(6).Apply(slope);

        for (int i = 0; i < 5; i++)
            Assert.Equal(Inverse(y => slope[(int)y] + ((y - (int)y) * (slope[Math.Min((int)y + 1, 5)] - slope[(int)y])), i, 5), profile[i], 1e-9);
    }

    [Fact]
    public void CubicSlope_Line_IsExact()
    {
        // The line is odd and has no second derivative anywhere: its spline is the line, and INT y dy / sqrt(y^2 - r^2) = sqrt(R^2 - r^2).
        double[] slope = [.. Enumerable.Range(0, 12).Select(i => (double)i)];

        double[] profile = AbelOperators.CubicSlope(12).Apply(slope);

        for (int i = 0; i < 12; i++)
            Assert.Equal(-Math.Sqrt(121 - (i * i)) / Math.PI, profile[i], 1e-12);
    }

    [Fact]
    public void CubicSlope_AnySlope_IsTheIntegralOfItsSpline()
    {
        double[] slope = [0, -0.7, -1.9, -1.1, -0.4, -0.2];
        // MathNet's natural spline through the odd continuation is the same spline.
        double[] positions = [.. Enumerable.Range(-5, 11).Select(i => (double)i)];
        MathNet.Numerics.Interpolation.CubicSpline spline = MathNet.Numerics.Interpolation.CubicSpline.InterpolateNatural(positions, [.. positions.Select(y => Math.Sign(y) * slope[(int)Math.Abs(y)])]);

        double[] profile = AbelOperators.CubicSlope(6).Apply(slope);

        for (int i = 0; i < 5; i++)
            Assert.Equal(Inverse(spline.Interpolate, i, 5), profile[i], 1e-9);
    }

    [Theory]
    [InlineData(8, 3)]
    [InlineData(12, 5)]
    [InlineData(20, 8)]
    public void CubicSlope_FewNodes_BeatsTwoPoint(int nodes, double times)
    {
        foreach (AbelPair pair in (AbelPair[])[AbelPair.Jet, AbelPair.Gaussian])
        {
            double[] slope = pair.Sample(pair.Slope, nodes);
            double Rms(AbelOperator inversion) => Math.Sqrt(inversion.Apply(slope).Select((value, i) => Math.Pow(value - pair.Profile(i * pair.Spacing(nodes)), 2)).Average());

            Assert.True(times * Rms(AbelOperators.CubicSlope(nodes)) < Rms(AbelOperators.TwoPoint(nodes)), $"{pair}: {Rms(AbelOperators.CubicSlope(nodes))} and {Rms(AbelOperators.TwoPoint(nodes))}");
        }
    }

    [Fact]
    public void Apply_DataOfAnotherLength_IsRefused() =>
        Assert.Throws<ArgumentException>(() => AbelOperators.TwoPoint(5).Apply(new double[6]));

    // -1/pi INT g dy / sqrt(y^2 - r^2) over y = r cosh(t) or q, by Simpson's rule on many points in each cell.
    private static double Inverse(Func<double, double> slope, int r, int end)
    {
        double sum = 0;
        for (int cell = r; cell < end; cell++)
        {
            double from = Math.Sqrt((cell * cell) - (r * r)), to = Math.Sqrt(((cell + 1) * (cell + 1)) - (r * r));
            sum += MathNet.Numerics.Integration.GaussLegendreRule.Integrate(
                q =>
                {
                    double y = Math.Min(Math.Sqrt((r * r) + (q * q)), cell + 1 - 1e-13);
                    return slope(Math.Max(y, cell + 1e-13)) / y;
                },
                from,
                to,
                64);
        }

        return -sum / Math.PI;
    }
}
