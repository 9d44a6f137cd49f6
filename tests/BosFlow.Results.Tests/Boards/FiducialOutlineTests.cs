using BosFlow.Results.Boards;
using CsCheck;

namespace BosFlow.Results.Tests.Boards;

public sealed class FiducialOutlineTests
{
    private const int Cells = 8;

    [Fact]
    public void Trace_AnyCells_AreaIsThatOfTheBlackOnes()
    {
        Gen.Bool.Array[Cells * Cells].Sample(cells =>
        {
            IReadOnlyList<IReadOnlyList<(int X, int Y)>> outlines = FiducialOutline.Trace(Cells, (row, column) => cells[(row * Cells) + column]);

            // Walked with black at the right hand, outer borders count positive and holes negative.
            return outlines.Sum(TwiceArea) == 2 * cells.Count(black => black);
        });
    }

    [Fact]
    public void Trace_AnyCells_EachEdgeBetweenBlackAndWhiteOnceAndNoOther()
    {
        Gen.Bool.Array[Cells * Cells].Sample(cells =>
        {
            IReadOnlyList<IReadOnlyList<(int X, int Y)>> outlines = FiducialOutline.Trace(Cells, (row, column) => cells[(row * Cells) + column]);
            List<((int, int), (int, int))> edges = [.. outlines.SelectMany(UnitEdges)];
            return edges.Distinct().Count() == edges.Count && edges.Count == EdgesOf(cells);
        });
    }

    [Fact]
    public void Trace_TwoCellsThatTouchAtACorner_TwoSquares()
    {
        IReadOnlyList<IReadOnlyList<(int X, int Y)>> outlines = FiducialOutline.Trace(2, (row, column) => row == column);

        Assert.Equal(2, outlines.Count);
        Assert.All(outlines, outline => Assert.Equal(4, outline.Count));
    }

    [Fact]
    public void Trace_Full_OneSquareOfFourCorners()
    {
        IReadOnlyList<(int X, int Y)> outline = Assert.Single(FiducialOutline.Trace(3, (_, _) => true));

        Assert.Equal([(0, 0), (3, 0), (3, 3), (0, 3)], outline);
    }

    private static int TwiceArea(IReadOnlyList<(int X, int Y)> outline) =>
        outline.Select((corner, i) => (A: corner, B: outline[(i + 1) % outline.Count])).Sum(edge => (edge.A.X * edge.B.Y) - (edge.B.X * edge.A.Y));

    private static IEnumerable<((int, int), (int, int))> UnitEdges(IReadOnlyList<(int X, int Y)> outline)
    {
        for (int i = 0; i < outline.Count; i++)
        {
            (int x, int y) = outline[i];
            (int toX, int toY) = outline[(i + 1) % outline.Count];
            while ((x, y) != (toX, toY))
            {
                (int nextX, int nextY) = (x + Math.Sign(toX - x), y + Math.Sign(toY - y));
                yield return (x, y).CompareTo((nextX, nextY)) < 0 ? ((x, y), (nextX, nextY)) : ((nextX, nextY), (x, y));
                (x, y) = (nextX, nextY);
            }
        }
    }

    private static int EdgesOf(bool[] cells)
    {
        bool Black(int row, int column) => row >= 0 && column >= 0 && row < Cells && column < Cells && cells[(row * Cells) + column];
        int count = 0;
        for (int row = -1; row < Cells; row++)
        {
            for (int column = -1; column < Cells; column++)
                count += (Black(row, column) != Black(row, column + 1) ? 1 : 0) + (Black(row, column) != Black(row + 1, column) ? 1 : 0);
        }

        return count;
    }
}
