using BosFlow.Numerics.Robust;
using MathNet.Numerics.Statistics;

namespace BosFlow.Numerics.Tests.Robust;

public sealed class QuantilesTests
{
    [Theory]
    [InlineData(new float[] { 3 }, 3)]
    [InlineData(new float[] { 3, 1 }, 2)]
    [InlineData(new float[] { 9, 1, 4 }, 4)]
    [InlineData(new float[] { 9, 1, 4, 5 }, 4.5)]
    public void Median_SmallSets_IsTheMiddle(float[] values, float expected) => Assert.Equal(expected, Quantiles.Median(values));

    [Fact]
    public void Median_Empty_IsNaN() => Assert.True(float.IsNaN(Quantiles.Median<float>([])));

    [Theory]
    [InlineData(2)]
    [InlineData(25)]
    [InlineData(26)]
    [InlineData(1000)]
    [InlineData(1001)]
    public void Median_ManyValues_IsWhatSortingGives(int count)
    {
        var random = new Random(9);
        double[] values = [.. Enumerable.Range(0, count).Select(_ => random.NextDouble())];
        float[] single = [.. values.Select(value => (float)value)];
        double[] sorted = [.. values.Order()];
        float[] sortedSingle = [.. single.Order()];

        Assert.Equal((sorted[(count - 1) / 2] + sorted[count / 2]) / 2, Quantiles.Median<double>(values));
        Assert.Equal(0.5f * (sortedSingle[(count - 1) / 2] + sortedSingle[count / 2]), Quantiles.Median<float>(single));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.01)]
    [InlineData(0.37)]
    [InlineData(1)]
    public void Quantile_AgainstMathNetR7_Agrees(double share)
    {
        var random = new Random(8);
        float[] values = [.. Enumerable.Range(0, 101).Select(_ => (float)random.NextDouble())];
        double expected = ArrayStatistics.QuantileCustomInplace([.. values.Select(v => (double)v)], share, QuantileDefinition.R7);

        Assert.Equal(expected, Quantiles.Quantile(values, share), 1e-6);
    }
}
