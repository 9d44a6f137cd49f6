using BosFlow.Numerics.Abel;
using BosFlow.TestKit;

namespace BosFlow.Numerics.Tests.Abel;

/// <summary>Analytic pairs recovered with and without noise; the same figures are tabled in docs/validation/density-solvers.md.</summary>
public sealed class AbelAccuracyTests
{
    private const int Nodes = 101;
    private const int Draws = 200;

    public static TheoryData<int> SmoothPairs => [.. Enumerable.Range(0, AbelPair.Smooth.Count)];

    [Theory]
    [MemberData(nameof(SmoothPairs))]
    public void EveryOperator_HundredNodesWithoutNoise_IsWithinHalfAPercentOfThePeak(int index)
    {
        AbelPair pair = AbelPair.Smooth[index];
        double[] expected = pair.Sample(pair.Profile, Nodes), slope = pair.Sample(pair.Slope, Nodes), projection = pair.Sample(pair.Projection, Nodes);
        double Worst(double[] values) => values.Select((value, i) => Math.Abs(value - expected[i])).Max() / expected.Max();

        foreach (AbelOperator inversion in Operators(pair))
            Assert.True(Worst(inversion.Apply(inversion.Input == AbelInput.Slope ? slope : projection)) < 0.005, $"{pair}, {inversion.Name}");
        // The recommended one keeps two orders more.
        Assert.True(Worst(Fit(pair, slope, 1e-3 * slope.Max(Math.Abs))) < 5e-5, $"{pair}");
    }

    [Theory]
    [MemberData(nameof(SmoothPairs))]
    public void RecommendedFit_OnePercentNoise_IsNoWorseThanAnyPublishedOperatorOnTheSameData(int index)
    {
        AbelPair pair = AbelPair.Smooth[index];
        double[] expected = pair.Sample(pair.Profile, Nodes), slope = pair.Sample(pair.Slope, Nodes);
        double noise = 0.01 * slope.Max(Math.Abs), squares = 0;
        AbelOperator[] published = [AbelOperators.TwoPoint(Nodes), AbelOperators.IntegratedThreePoint(Nodes)];
        double[] publishedSquares = new double[published.Length];
        Random random = new(11);
        for (int draw = 0; draw < 50; draw++)
        {
            double[] noisy = [.. slope.Select(value => value + (noise * RadialProfileFitterTests.Normal(random)))];
            squares += Squares(Fit(pair, noisy, noise), expected);
            for (int k = 0; k < published.Length; k++)
                publishedSquares[k] += Squares(published[k].Apply(noisy), expected);
        }

        Assert.True(squares < publishedSquares.Min(), $"{pair}: {Math.Sqrt(squares)} and {Math.Sqrt(publishedSquares.Min())}");
    }

    [Fact]
    public void Sigma_EveryOperator_IsTheScatterOfDraws()
    {
        AbelPair pair = AbelPair.Gaussian;
        foreach (AbelOperator inversion in Operators(pair))
        {
            Random random = new(12);
            double[] sigma = [.. Enumerable.Range(0, Nodes).Select(i => 1 + (0.01 * i))], propagated = inversion.Sigma(sigma), squares = new double[Nodes];
            for (int draw = 0; draw < Draws; draw++)
            {
                double[] values = inversion.Apply([.. sigma.Select(size => size * RadialProfileFitterTests.Normal(random))]);
                for (int i = 0; i < Nodes; i++)
                    squares[i] += values[i] * values[i] / Draws;
            }

            foreach (int i in (int[])[0, 1, 5, 20, 50, 90])
                Assert.Equal(1, Math.Sqrt(squares[i]) / propagated[i], Tolerances.StandardErrors / Math.Sqrt(2.0 * Draws));
        }
    }

    [Fact]
    public void Covariance_OfCorrelatedErrors_IsTheScatterOfDraws()
    {
        AbelOperator inversion = AbelOperators.CubicSlope(12);
        double[] covariance = new double[144];
        for (int i = 0; i < 12; i++)
        {
            for (int j = 0; j < 12; j++)
                covariance[(i * 12) + j] = Math.Abs(i - j) switch { 0 => 2, 1 => 1, _ => 0 };
        }

        double[] propagated = inversion.Covariance(covariance), squares = new double[12];
        Random random = new(13);
        for (int draw = 0; draw < Draws; draw++)
        {
            double[] white = [.. Enumerable.Range(0, 13).Select(_ => RadialProfileFitterTests.Normal(random))];
            double[] values = inversion.Apply([.. Enumerable.Range(0, 12).Select(i => white[i] + white[i + 1])]);
            for (int i = 0; i < 12; i++)
                squares[i] += values[i] * values[i] / Draws;
        }

        for (int i = 0; i < 11; i++)
            Assert.Equal(1, Math.Sqrt(squares[i] / propagated[i * 13]), Tolerances.StandardErrors / Math.Sqrt(2.0 * Draws));
    }

    private static AbelOperator[] Operators(AbelPair pair) =>
    [
        AbelOperators.ThreePoint(Nodes, pair.Spacing(Nodes)),
        AbelOperators.OnionPeeling(Nodes, pair.Spacing(Nodes)),
        AbelOperators.TwoPoint(Nodes),
        AbelOperators.CubicSlope(Nodes),
        AbelOperators.IntegratedThreePoint(Nodes),
    ];

    private static double[] Fit(AbelPair pair, double[] slope, double sigma)
    {
        double[] radii = [.. Enumerable.Range(0, Nodes).Select(i => i * pair.Spacing(Nodes))];
        RadialFitProblem problem = new() { Position = radii, Slope = slope, Sigma = [.. slope.Select(_ => sigma)], OuterRadius = radii[^1] };
        return RadialProfileFitter.Fit(problem, radii).Value;
    }

    private static double Squares(double[] values, double[] expected) => values.Select((value, i) => (value - expected[i]) * (value - expected[i])).Sum();
}
