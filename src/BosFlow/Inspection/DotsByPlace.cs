using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>The dots of a board, found by place. Thread-safe.</summary>
internal sealed class DotsByPlace
{
    private readonly IReadOnlyList<PrintedDot> dots;
    private readonly ILookup<(int, int), int> cells;
    private readonly double side;

    /// <param name="dots">The dots.</param>
    /// <param name="side">Side of the squares that they are sorted into, m.</param>
    public DotsByPlace(IReadOnlyList<PrintedDot> dots, double side)
    {
        this.dots = dots;
        this.side = side;
        cells = Enumerable.Range(0, dots.Count).ToLookup(i => Cell(dots[i].X, dots[i].Y));
    }

    /// <summary>Dots whose centres lie in or near a square, in a fixed order.</summary>
    /// <param name="x">x of the square's centre, m.</param>
    /// <param name="y">y of the square's centre, m.</param>
    /// <param name="half">Half its side, m.</param>
    public IEnumerable<PrintedDot> Near(double x, double y, double half)
    {
        (int left, int top) = Cell(x - half, y - half);
        (int right, int bottom) = Cell(x + half, y + half);
        for (int row = top; row <= bottom; row++)
        {
            for (int column = left; column <= right; column++)
            {
                foreach (int i in cells[(column, row)])
                    yield return dots[i];
            }
        }
    }

    private (int Column, int Row) Cell(double x, double y) => ((int)Math.Floor(x / side), (int)Math.Floor(y / side));
}
