using System.Numerics;
using BosFlow.Speckle.Boards;

namespace BosFlow.Tests.Speckle.Boards;

public sealed class FiducialCodeTests
{
    private const int Inner = FiducialCode.Cells - 2;

    [Fact]
    public void LeastDistance_AllPairsInAllQuarterTurns_IsAsStated()
    {
        ulong[][] turned = [.. Enumerable.Range(0, FiducialCode.Count).Select(id => Enumerable.Range(0, 4).Select(turns => Code(id, turns)).ToArray())];
        int least = int.MaxValue;
        for (int i = 0; i < turned.Length; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                // A mark against itself counts in its turned positions: it must not be taken for itself turned.
                for (int turns = i == j ? 1 : 0; turns < 4; turns++)
                    least = Math.Min(least, BitOperations.PopCount(turned[i][0] ^ turned[j][turns]));
            }
        }

        Assert.Equal(FiducialCode.LeastDistance, least);
    }

    [Fact]
    public void IsBlack_Border_IsBlackAllAround()
    {
        for (int i = 0; i < FiducialCode.Cells; i++)
        {
            Assert.True(FiducialCode.IsBlack(7, 0, i) && FiducialCode.IsBlack(7, i, 0));
            Assert.True(FiducialCode.IsBlack(7, FiducialCode.Cells - 1, i) && FiducialCode.IsBlack(7, i, FiducialCode.Cells - 1));
        }
    }

    [Theory]
    [InlineData(-1, 0, 0)]
    [InlineData(250, 0, 0)]
    [InlineData(0, 8, 0)]
    [InlineData(0, 0, -1)]
    public void IsBlack_NoSuchCell_IsRefused(int id, int row, int column) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => FiducialCode.IsBlack(id, row, column));

    private static ulong Code(int id, int turns)
    {
        ulong code = 0;
        for (int row = 0; row < Inner; row++)
        {
            for (int column = 0; column < Inner; column++)
            {
                (int r, int c) = (row, column);
                for (int turn = 0; turn < turns; turn++)
                    (r, c) = (c, Inner - 1 - r);
                code = (code << 1) | (FiducialCode.IsBlack(id, r + 1, c + 1) ? 0UL : 1UL);
            }
        }

        return code;
    }
}
