using BosFlow.Camera;

namespace BosFlow.Inspection;

/// <summary>Between a board, the ideal picture of it and the picture as filmed.</summary>
/// <param name="Map">From the board to the ideal picture.</param>
/// <param name="Lens">The lens between ideal and filmed picture; null = they are one.</param>
internal sealed record BoardView(PlaneMap Map, LensModel? Lens)
{
    /// <summary>Where a point of the board is seen in the picture as filmed, px; NaN where the lens shows nothing.</summary>
    public (double X, double Y) ToPicture(double x, double y)
    {
        (double column, double row) = Map.ToPicture(x, y);
        return Lens is null ? (column, row) : Lens.ToPicture(column, row);
    }

    /// <summary>Which point of the board is seen at a place of the picture as filmed, m; NaN where none is.</summary>
    public (double X, double Y) ToBoard(double column, double row)
    {
        (double x, double y) = Lens is null ? (column, row) : Lens.ToIdeal(column, row);
        return Map.ToPlane(x, y);
    }

    /// <summary>px of the picture as filmed for a metre of the board there, whatever the direction: from the scale of area.</summary>
    public double PixelsPerMetre(double x, double y)
    {
        if (Lens is null)
            return Math.Sqrt(Map.AreaScaleAt(x, y));
        (double column, double row) = Map.ToPicture(x, y);
        LensSlopes slopes = Lens.SlopesAt(column, row);
        return Math.Sqrt(Map.AreaScaleAt(x, y) * Math.Abs((slopes.XX * slopes.YY) - (slopes.XY * slopes.YX)));
    }
}
