using BosFlow.Numerics.Integration;
using BosFlow.TestKit;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Numerics.Tests.Integration;

/// <summary>Uncertainty by transposed solves, by probes, and by the dense covariance of the whole problem.</summary>
public sealed class IntegrationSigmaTests
{
    private static readonly GradientErrors Overlapping = new() { CorrelationAlongX = [1, 0.5], CorrelationAlongY = [1, 0.4, 0.1], KnownSigma = 0.003 };

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void SigmaAt_CorrelatedErrors_IsTheDenseCovariance(bool withKnown)
    {
        GradientProblem problem = Problem(withKnown);
        double[] expected = DenseSigma(problem, withKnown ? Overlapping.KnownSigma : 0);
        GradientIntegrator integrator = TestProblems.Prepare(problem);

        for (int node = 0; node < expected.Length; node++)
        {
            if (problem.Domain[node])
                Assert.Equal(expected[node], integrator.SigmaAt(node, Overlapping, CancellationToken.None), 1e-6 * expected.Max());
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Sigma_Probes_ScatterAboutTheDenseCovariance(bool withKnown)
    {
        GradientProblem problem = Problem(withKnown);
        double[] expected = DenseSigma(problem, withKnown ? Overlapping.KnownSigma : 0);

        SigmaEstimate estimate = TestProblems.Prepare(problem).Sigma(Overlapping, 1000, 7, CancellationToken.None);

        Assert.Equal(1 / Math.Sqrt(2000), estimate.RelativeStandardError, 1e-12);
        for (int node = 0; node < expected.Length; node++)
        {
            if (problem.Domain[node] && expected[node] > 0)
                Assert.Equal(1, estimate.Sigma[node] / expected[node], Tolerances.StandardErrors * estimate.RelativeStandardError);
            else
                Assert.True(double.IsNaN(estimate.Sigma[node]));
        }
    }

    [Fact]
    public void WeightsAt_Node_GiveItsValue()
    {
        GradientProblem problem = TestProblems.Smooth(30, 20, sigmaRatio: 10).WithNoise(2);
        GradientIntegrator integrator = TestProblems.Prepare(problem);
        double[] values = integrator.Solve(CancellationToken.None).Values;

        NodeWeights weights = integrator.WeightsAt(250, CancellationToken.None);

        double sum = weights.OfGradientX.Zip(problem.GradientX, (weight, value) => weight * value).Sum() + weights.OfGradientY.Zip(problem.GradientY, (weight, value) => weight * value).Sum();
        Assert.Equal(values[250], sum, 1e-7);
        Assert.Throws<ArgumentOutOfRangeException>(() => integrator.WeightsAt(600, CancellationToken.None));
    }

    [Fact]
    public void SigmaAt_LargeGridWithoutKnown_GrowsWithTheLogarithmOfItsSize()
    {
        // Classical result of wavefront sensors (D. L. Fried 1977, R. J. Noll 1978, from memory): variance = sigma^2 h^2 (a + ln(n) / (2 pi)).
        double Variance(int size)
        {
            GradientProblem problem = TestProblems.Smooth(size, size);
            return Math.Pow(TestProblems.Prepare(problem).SigmaAt((size / 2 * size) + (size / 2), GradientErrors.Independent, CancellationToken.None) / (0.01 * TestProblems.Spacing), 2);
        }

        double growth = (Variance(160) - Variance(40)) / Math.Log(4);

        Assert.Equal(1 / (2 * Math.PI), growth, 0.02);
    }

    [Fact]
    public void ExpectedResidualRms_IsWhatErrorsAsStatedLeave()
    {
        GradientProblem problem = TestProblems.Smooth(60, 50, isKnown: (x, y) => x == 0);
        SigmaEstimate estimate = TestProblems.Prepare(problem).Sigma(GradientErrors.Independent, 40, 3, CancellationToken.None);
        Random random = new(8);
        GradientProblem noisy = problem with
        {
            GradientX = [.. problem.GradientX.Select(value => value + (0.01 * Abel.RadialProfileFitterTests.Normal(random)))],
            GradientY = [.. problem.GradientY.Select(value => value + (0.01 * Abel.RadialProfileFitterTests.Normal(random)))],
        };

        double measured = TestProblems.Solve(noisy).ResidualRms;

        // About 3000 equations in excess, neighbours of which share errors: a scatter of some 2 %.
        Assert.Equal(1, measured / estimate.ExpectedResidualRms, 0.08);
    }

    private static GradientProblem Problem(bool withKnown)
    {
        GradientProblem problem = TestProblems.Smooth(9, 7, (x, y) => !(x is 3 or 4 && y is 2 or 3), (x, y) => withKnown && x == 0 && y < 3, 10);
        problem.GradientX[14] = double.NaN;
        problem.GradientY[40] = double.NaN;
        return problem;
    }

    private static double[] DenseSigma(GradientProblem problem, double knownSigma)
    {
        int n = problem.Domain.Length;
        double Correlation(double[] values, int distance) => distance < values.Length ? values[distance] : 0;
        Matrix<double> covariance = Matrix<double>.Build.Dense(2 * n, 2 * n, (i, j) =>
        {
            if (i / n != j / n)
                return 0;
            double[] sigma = i < n ? problem.SigmaX : problem.SigmaY;
            (int a, int b) = (i % n, j % n);
            return sigma[a] * sigma[b]
                * Correlation(Overlapping.CorrelationAlongX, Math.Abs((a % problem.Columns) - (b % problem.Columns)))
                * Correlation(Overlapping.CorrelationAlongY, Math.Abs((a / problem.Columns) - (b / problem.Columns)));
        });
        Matrix<double> inversion = new DenseIntegration(problem).Operator();
        Vector<double> variance = (inversion * covariance * inversion.Transpose()).Diagonal();
        return [.. variance.Select((value, node) => problem.Domain[node] ? Math.Sqrt(value + (knownSigma * knownSigma)) : 0)];
    }
}
