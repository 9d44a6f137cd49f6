using BosFlow.Speckle;
using BosFlow.Validation;

namespace BosFlow.Tests.Validation;

public sealed class ErrorStatisticsTests
{
    [Fact]
    public void Add_HonestNormalErrors_CoversAsTheNormalDistribution()
    {
        var random = new SeededRandom(3);
        var statistics = new ErrorStatistics();
        for (int i = 0; i < 40_000; i++)
            statistics.Add(5 + (0.02 * random.NextNormal()), 5, 0.02);

        // Standard normal distribution: 0.6827 within one, 0.95 within 1.96; 99 % of |z| below 2.576 (any table).
        Assert.Equal(0.6827, statistics.CoverageOneSigma, 0.01);
        Assert.Equal(0.95, statistics.Coverage95, 0.005);
        Assert.Equal(0.9545, statistics.CoverageTwoSigma, 0.005);
        Assert.Equal(0.02, statistics.Rms, 0.0004);
        Assert.Equal(0, statistics.Bias, 0.0004);
        Assert.Equal(0.02 * 2.576, statistics.AbsoluteQuantile(0.99), 0.0015);
    }

    [Fact]
    public void Add_NotMeasured_IsCountedApart()
    {
        var statistics = new ErrorStatistics();
        statistics.Add(double.NaN, 1, 0.3);
        statistics.Add(1.5, 1, 0.1);
        Assert.Equal(1, statistics.Count);
        Assert.Equal(1, statistics.Missing);
        Assert.Equal(0.5, statistics.Bias);
        Assert.Equal(0, statistics.Deviation, 1e-12);
        Assert.Equal(0.1, statistics.StatedRms, 1e-12);
    }

    [Fact]
    public void LineFit_KnownLine_GivesSlopeAndInterceptAndSkipsNaN()
    {
        LineFit line = LineFit.Of([0, 1, 2, float.NaN, 5], [1, 3, 5, 7, float.NaN]);
        Assert.Equal(2, line.Slope, 1e-6);
        Assert.Equal(1, line.Intercept, 1e-6);
    }

    [Fact]
    public void Figure_OutsideItsRequirement_DoesNotPass()
    {
        Assert.True(new Figure("s", "n", 1, "1", 0.97, 1.03).Passes);
        Assert.False(new Figure("s", "n", 1.04, "1", 0.97, 1.03).Passes);
        Assert.False(new Figure("s", "n", double.NaN, "1", null, 1).Passes);
        Assert.True(new Figure("s", "n", double.NaN, "1", null, null).Passes);
    }

    [Fact]
    public void ComponentComparison_KnownErrors_GivesPercentOfTheVectorPeak()
    {
        ComponentComparison comparison = ComponentComparison.Of([3.1f, float.NaN, 0.1f], [0.2f, 1, 0.05f], [3, 100, 0], [4, 0, 0]);
        Assert.Equal(5, comparison.Peak, 1e-6);
        Assert.Equal(0.1, comparison.RmsError, 1e-6);
        Assert.Equal(2, comparison.PercentOfPeak, 1e-5);
        Assert.Equal(2, comparison.Count);
        Assert.Equal(0.5, comparison.CoverageOneSigma);
    }
}
