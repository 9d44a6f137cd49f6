using BosFlow.Results.Plans;

namespace BosFlow.Results.Tests.Plans;

public sealed class ContourLinesTests
{
    private const double Rounding = 1e-12;

    [Fact]
    public void Of_APlane_IsTheStraightLineOfItsLevel()
    {
        // x + 2 y = 3 crosses the grid from (3, 0) to (0, 1.5).
        double[][] values = [.. Enumerable.Range(0, 4).Select(row => Enumerable.Range(0, 4).Select(column => (double)column + (2 * row)).ToArray())];

        var pieces = ContourLines.Of(values, 3).ToArray();

        Assert.NotEmpty(pieces);
        Assert.All(pieces, piece => Assert.Equal(3, piece.X1 + (2 * piece.Y1), Rounding));
        Assert.All(pieces, piece => Assert.Equal(3, piece.X2 + (2 * piece.Y2), Rounding));
        Assert.Equal(Math.Sqrt(9 + 2.25), pieces.Sum(piece => double.Hypot(piece.X2 - piece.X1, piece.Y2 - piece.Y1)), Rounding);
    }

    [Fact]
    public void Of_ACellWithAnUnknownCorner_HasNoLine()
    {
        double[][] values = [[0, 1], [double.NaN, 2]];

        Assert.Empty(ContourLines.Of(values, 0.5));
    }

    [Fact]
    public void Of_ALevelOutsideTheValues_HasNoLine()
    {
        Assert.Empty(ContourLines.Of([[0, 1], [1, 2]], 5));
    }
}
