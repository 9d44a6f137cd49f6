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
}
