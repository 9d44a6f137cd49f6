using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Kit;

public sealed class ErrorStatisticsTests
{
    [Fact]
    public void Of_KnownErrors_GivesTheFiguresWorkedByHand()
    {
        ErrorStatistics statistics = ErrorStatistics.Of([1f, 2f, 3f, float.NaN, 9f], [0.0, 2.0, 5.0, 1.0, double.NaN]);

        // Errors 1, 0, -2: mean -1/3, mean square 5/3, variance 5/3 - 1/9.
        Assert.Equal(3, statistics.Count);
        Assert.Equal(1, statistics.Missing);
        Assert.Equal(-1.0 / 3, statistics.Bias, 12);
        Assert.Equal(Math.Sqrt(5.0 / 3), statistics.Rms, 12);
        Assert.Equal(Math.Sqrt((5.0 / 3) - (1.0 / 9)), statistics.Spread, 12);
        Assert.Equal(2, statistics.Worst);
        Assert.Equal(1, statistics.Percentile(50));
        Assert.Equal(1.5, statistics.Percentile(75), 12);
    }

    [Fact]
    public void Of_NothingMeasured_GivesNaN()
    {
        ErrorStatistics statistics = ErrorStatistics.Of([float.NaN], [1.0]);

        Assert.Equal(1, statistics.Missing);
        Assert.True(double.IsNaN(statistics.Bias) && double.IsNaN(statistics.Rms) && double.IsNaN(statistics.Worst));
    }

    [Fact]
    public void Of_DifferentLengths_Throws() =>
        Assert.Throws<ArgumentException>(() => ErrorStatistics.Of([1f], [1.0, 2.0]));
}
