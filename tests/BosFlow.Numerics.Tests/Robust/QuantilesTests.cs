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
    public void Median_Empty_IsNaN() => Assert.True(float.IsNaN(Quantiles.Median([])));

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
