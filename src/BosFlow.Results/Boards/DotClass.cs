using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Dots of one diameter and tone on a sheet.</summary>
/// <param name="Diameter">Diameter drawn, m.</param>
/// <param name="IsLight">Whether they are lighter than the ground.</param>
/// <param name="Centres">Centres on the paper.</param>
internal sealed record DotClass(double Diameter, bool IsLight, IReadOnlyList<SheetPoint> Centres)
{
    /// <summary>The dots of which at least a part lies in an area of the paper, by size and tone; a class without dots is left out.</summary>
    /// <param name="board">The board.</param>
    /// <param name="frame">Where it lies on the paper.</param>
    /// <param name="area">Area on the paper.</param>
    public static IReadOnlyList<DotClass> In(Board board, SheetFrame frame, BoardRectangle area)
    {
        int sizes = board.Settings.Sizes.Count;
        List<SheetPoint>[] centres = [.. Enumerable.Range(0, 2 * sizes).Select(_ => new List<SheetPoint>())];
        foreach (PrintedDot dot in board.Dots)
        {
            SheetPoint at = frame.Place(dot.X, dot.Y);
            double reach = board.DrawnDiameter(dot) / 2;
            if (at.X > area.Left - reach && at.X < area.Right + reach && at.Y > area.Top - reach && at.Y < area.Bottom + reach)
                centres[(2 * dot.Size) + (dot.IsLight ? 1 : 0)].Add(at);
        }

        return [.. centres
            .Select((places, i) => new DotClass(board.Settings.Sizes[i / 2].DiameterMetres - board.Settings.InkGainMetres, i % 2 == 1, places))
            .Where(dots => dots.Centres.Count > 0)];
    }

    /// <summary>Those of them of which at least a part lies in a strip across the paper.</summary>
    /// <param name="top">Upper edge of the strip, m.</param>
    /// <param name="bottom">Lower edge, m.</param>
    public DotClass Between(double top, double bottom) =>
        this with { Centres = [.. Centres.Where(at => at.Y > top - (Diameter / 2) && at.Y < bottom + (Diameter / 2))] };
}
