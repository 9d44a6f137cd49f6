using BosFlow.Numerics.Interpolation;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class MirroredIndexTests
{
    [Fact]
    public void Of_LineOfFour_RunsToAndFro()
    {
        int[] expected = [2, 3, 2, 1, 0, 1, 2, 3, 2, 1, 0, 1, 2, 3, 2];

        Assert.Equal(expected, Enumerable.Range(-4, 15).Select(index => MirroredIndex.Of(index, 4)));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(17)]
    public void Of_AnyIndex_IsSymmetricAboutBothEnds(int length)
    {
        for (int k = 0; k < 5 * length; k++)
        {
            Assert.InRange(MirroredIndex.Of(k, length), 0, length - 1);
            Assert.Equal(MirroredIndex.Of(k, length), MirroredIndex.Of(-k, length));
            Assert.Equal(MirroredIndex.Of(length - 1 - k, length), MirroredIndex.Of(length - 1 + k, length));
        }

        Assert.Equal(Enumerable.Range(0, length), Enumerable.Range(0, length).Select(k => MirroredIndex.Of(k, length)));
    }
}
