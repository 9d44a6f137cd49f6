namespace BosFlow.Registration;

/// <summary>
/// Finds the similarity motion that most tiles agree on, by trying every pair of tiles: exhaustive, so it needs no luck, and it holds
/// even where most tiles are wrong (saturated, hidden), as long as the right ones outnumber every accidental agreement.
/// </summary>
internal static class TileConsensus
{
    // What a loose camera or board can do between two frames; a wider range lets wild tiles agree by accident.
    public const double LargestTurn = 0.045; // 2.6 deg, and 4.5 % of scale
    private const double TolerancePixels = 3;
    private const double LowestShare = 0.3;
    private const int FewestTiles = 4;

    /// <summary>Finds the motion.</summary>
    /// <param name="shifts">Shifts of the tiles that could be measured.</param>
    /// <param name="tileCount">Number of tiles of the reference.</param>
    /// <returns>The motion and the tiles that agree; null where too few do.</returns>
    public static (PlanarMotion Motion, IReadOnlyList<TileShift> Agreeing)? Find(IReadOnlyList<TileShift> shifts, int tileCount)
    {
        IReadOnlyList<TileShift> best = [];
        double bestError = double.PositiveInfinity;
        for (int i = 0; i < shifts.Count; i++)
        {
            for (int j = i; j < shifts.Count; j++)
            {
                PlanarMotion? motion = i == j ? PlanarMotion.Shift(shifts[i].U, shifts[i].V) : Through(shifts[i], shifts[j]);
                if (motion is null)
                    continue;
                (IReadOnlyList<TileShift> agreeing, double error) = Agreeing(motion, shifts);
                if (agreeing.Count < best.Count || (agreeing.Count == best.Count && error >= bestError))
                    continue;
                best = agreeing;
                bestError = error;
            }
        }

        int needed = Math.Min(tileCount, Math.Max(FewestTiles, (int)Math.Ceiling(LowestShare * tileCount)));
        return best.Count < needed ? null : (Fit(best), best);
    }

    private static PlanarMotion? Through(TileShift a, TileShift b)
    {
        double dx = b.X - a.X;
        double dy = b.Y - a.Y;
        double square = (dx * dx) + (dy * dy);
        double du = b.U - a.U;
        double dv = b.V - a.V;
        double stretch = ((du * dx) + (dv * dy)) / square;
        double turn = ((dv * dx) - (du * dy)) / square;
        if (Math.Abs(stretch) > LargestTurn || Math.Abs(turn) > LargestTurn)
            return null;
        double scale = 1 + stretch;
        return new PlanarMotion(
            scale, -turn, a.X + a.U - (scale * a.X) + (turn * a.Y), turn, scale, a.Y + a.V - (turn * a.X) - (scale * a.Y), 0, 0);
    }

    private static (IReadOnlyList<TileShift> Tiles, double Error) Agreeing(PlanarMotion motion, IReadOnlyList<TileShift> shifts)
    {
        var agreeing = new List<TileShift>();
        double error = 0;
        foreach (TileShift shift in shifts)
        {
            (double u, double v) = motion.DisplacementAt(shift.X, shift.Y);
            double square = ((u - shift.U) * (u - shift.U)) + ((v - shift.V) * (v - shift.V));
            if (square > TolerancePixels * TolerancePixels)
                continue;
            agreeing.Add(shift);
            error += square;
        }

        return (agreeing, error);
    }

    private static PlanarMotion Fit(IReadOnlyList<TileShift> shifts)
    {
        MotionFitResult fit = TileFit.Fit(MotionModel.Similarity, shifts);
        return fit.Failure is null ? fit.Motion.Planar : PlanarMotion.Shift(shifts.Average(shift => shift.U), shifts.Average(shift => shift.V));
    }
}
