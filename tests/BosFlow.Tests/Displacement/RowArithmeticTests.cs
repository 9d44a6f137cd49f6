using BosFlow.Displacement;

namespace BosFlow.Tests.Displacement;

public sealed class RowArithmeticTests
{
    [Theory]
    [InlineData(4, 21)]
    [InlineData(8, 21)]
    public void SumGroups_AnyNumberOfGroups_GivesTheSumOfEach(int group, int count)
    {
        float[] row = [.. Enumerable.Range(0, group * count).Select(i => (float)(i % 7))];
        float[] sums = new float[count];

        RowArithmetic.SumGroups(row, group, sums);

        for (int i = 0; i < count; i++)
            Assert.Equal(row.AsSpan(i * group, group).ToArray().Sum(), sums[i]); // whole numbers: exact in any order
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void FourTaps_AnyStep_GivesTheWeightedSumOfFourNeighbours(int step)
    {
        float[] row = [.. Enumerable.Range(0, 60).Select(i => (float)((i * i) % 11))], weights = [-1, 9, 8, -2];
        float[] target = new float[(57 * step) - (step - 1)];

        RowArithmetic.FourTaps(row, weights, target, step);

        for (int i = 0; i < 57; i++)
            Assert.Equal((-1 * row[i]) + (9 * row[i + 1]) + (8 * row[i + 2]) - (2 * row[i + 3]), target[i * step]); // whole numbers: exact in any order
    }

    [Theory]
    [InlineData(3)]
    [InlineData(16)]
    [InlineData(37)]
    public void Range_AnyLength_IsTheSmallestAndTheLargest(int length)
    {
        float[] row = [.. Enumerable.Range(0, length).Select(i => (float)(((7 * i) + 5) % 41))];

        Assert.Equal((row.Min(), row.Max()), RowArithmetic.Range(row));
        Assert.Equal((row[^1], row[^1]), RowArithmetic.Range(row.AsSpan(length - 1)));
    }

    [Fact]
    public void AddTimes_AnyLength_AddsTheMultiple()
    {
        float[] target = [.. Enumerable.Range(0, 37).Select(i => (float)i)], row = [.. Enumerable.Range(0, 37).Select(i => (float)(i % 5))];

        RowArithmetic.AddTimes(target, row, -3);

        for (int i = 0; i < target.Length; i++)
            Assert.Equal(i - (3 * (i % 5)), target[i]);
    }

    [Fact]
    public void Binomial_AnyLength_WeightsTheRowInTheMiddleTwice()
    {
        float[] row = [.. Enumerable.Range(0, 39).Select(i => (float)(i * i % 13))], target = new float[37];

        RowArithmetic.Binomial(row, row.AsSpan(1), row.AsSpan(2), target);

        for (int i = 0; i < target.Length; i++)
            Assert.Equal((row[i] + (2 * row[i + 1]) + row[i + 2]) / 4, target[i]); // quarters: exact
    }

    [Fact]
    public void Ratios_DivisorsThatAreNotAboveZero_GiveTheOtherValue()
    {
        float[] above = [.. Enumerable.Range(0, 37).Select(i => (float)(2 * i))], below = [.. Enumerable.Range(0, 37).Select(i => i % 4 == 0 ? 0 : i % 5 == 0 ? -1f : 2)], target = new float[37];

        RowArithmetic.Ratios(above, below, -7, target);

        for (int i = 0; i < target.Length; i++)
            Assert.Equal(i % 4 == 0 || i % 5 == 0 ? -7 : i, target[i]);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(0)]
    [InlineData(21)]
    [InlineData(36)]
    public void AnyNaN_OneNumberOfMany_IsFound(int place)
    {
        float[] values = new float[37];
        values[1] = float.PositiveInfinity;
        if (place >= 0)
            values[place] = float.NaN;

        Assert.Equal(place >= 0, RowArithmetic.AnyNaN(values));
    }
}
