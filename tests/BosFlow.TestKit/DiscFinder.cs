namespace BosFlow.TestKit;

/// <summary>Finds discs in a rendered page as connected areas of ink: whole pixels inside, part of a pixel at the edge.</summary>
/// <param name="page">The page.</param>
/// <param name="ink">Ink of a pixel for each of the 256 grey levels: 0 for the ground, 1 for the disc.</param>
public sealed class DiscFinder(GreyPage page, double[] ink)
{
    private readonly bool[] taken = new bool[page.Pixels.Length];
    private readonly Stack<int> open = new();

    /// <summary>Ink of grey levels that lie evenly between ground and disc.</summary>
    /// <param name="ground">Grey level of the ground.</param>
    /// <param name="disc">Grey level of the discs.</param>
    /// <param name="gamma">The renderer's: it draws a pixel of which a part c is covered with c to this power of the ink.</param>
    public static double[] Scale(byte ground, byte disc, double gamma = 1) =>
        [.. Enumerable.Range(0, 256).Select(level => Math.Pow(Math.Clamp((level - ground) / (double)(disc - ground), 0, 1), 1 / gamma))];

    /// <summary>The disc that covers a place.</summary>
    /// <param name="x">px from the left edge of the page.</param>
    /// <param name="y">px from the upper edge of the page.</param>
    /// <returns>The disc; null where there is no ink, or where the same area was found before.</returns>
    public FoundDisc? At(double x, double y)
    {
        Push((int)x, (int)y);
        double area = 0;
        double sumX = 0;
        double sumY = 0;
        while (open.TryPop(out int at))
        {
            (int row, int column) = Math.DivRem(at, page.Width);
            double covered = ink[page.Pixels[at]];
            area += covered;
            sumX += covered * (column + 0.5);
            sumY += covered * (row + 0.5);
            // Across edges only: two discs may come within a pixel of each other over a corner.
            Push(column - 1, row);
            Push(column + 1, row);
            Push(column, row - 1);
            Push(column, row + 1);
        }

        return area > 0 ? new FoundDisc(sumX / area, sumY / area, area) : null;
    }

    private void Push(int column, int row)
    {
        if (column < 0 || row < 0 || column >= page.Width || row >= page.Height)
            return;
        int at = (row * page.Width) + column;
        if (taken[at] || ink[page.Pixels[at]] <= 0)
            return;
        taken[at] = true;
        open.Push(at);
    }
}
