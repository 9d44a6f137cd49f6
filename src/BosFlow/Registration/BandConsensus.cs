namespace BosFlow.Registration;

/// <summary>Finds the motion of a band of rows that most of its tiles agree on, by trying every pair of tiles.</summary>
internal static class BandConsensus
{
    private const double LargestTurn = 0.035; // 2 deg, and 3.5 % of stretch: as TileConsensus
    private const double TolerancePixels = 1.5;
    private const double LowestShare = 0.5;
    private const int FewestTiles = 3;

    /// <summary>Finds the motion.</summary>
    /// <param name="model">What rows may do.</param>
    /// <param name="shifts">Shifts of the tiles that were found.</param>
    /// <param name="tileCount">Number of tiles of the band.</param>
    /// <param name="expected">Stretch and turn where the tiles do not tell.</param>
    /// <returns>The motion and the tiles that agree; null where too few do.</returns>
    public static (BandMotion Motion, IReadOnlyList<TileShift> Agreeing)? Find(RowModel model, IReadOnlyList<TileShift> shifts, int tileCount, BandMotion expected)
    {
        int needed = Math.Max(Math.Min(FewestTiles, tileCount), (int)Math.Ceiling(LowestShare * tileCount));
        BandMotion? best = null;
        List<TileShift> agreeing = [];
        double bestError = double.PositiveInfinity;
        for (int i = 0; i < shifts.Count; i++)
        {
            for (int j = i; j < shifts.Count; j++)
            {
                if (Through(model, shifts[i], shifts[j], i == j, expected) is not { } motion)
                    continue;
                (List<TileShift> found, double error) = Agreeing(model, motion, shifts);
                if (found.Count < agreeing.Count || (found.Count == agreeing.Count && error >= bestError))
                    continue;
                (best, agreeing, bestError) = (motion, found, error);
            }
        }

        return best is null || agreeing.Count < needed ? null : (best.Value, agreeing);
    }

    private static BandMotion? Through(RowModel model, TileShift a, TileShift b, bool single, BandMotion expected)
    {
        double acrossA = model.Across(a.X);
        if (single || !model.HasTurn)
            return new BandMotion(a.U - (expected.Stretch * acrossA), a.V - (expected.Turn * acrossA), expected.Stretch, expected.Turn);
        double lever = model.Across(b.X) - acrossA;
        double stretch = (b.U - a.U) / lever;
        double turn = (b.V - a.V) / lever;
        double limit = LargestTurn * model.Width / 2;
        if (Math.Abs(stretch) > limit || Math.Abs(turn) > limit)
            return null;
        return new BandMotion(a.U - (stretch * acrossA), a.V - (turn * acrossA), stretch, turn);
    }

    private static (List<TileShift> Tiles, double Error) Agreeing(RowModel model, BandMotion motion, IReadOnlyList<TileShift> shifts)
    {
        var agreeing = new List<TileShift>(shifts.Count);
        double error = 0;
        foreach (TileShift shift in shifts)
        {
            (double u, double v) = motion.At(model.Across(shift.X));
            double square = ((u - shift.U) * (u - shift.U)) + ((v - shift.V) * (v - shift.V));
            if (square > TolerancePixels * TolerancePixels)
                continue;
            agreeing.Add(shift);
            error += square;
        }

        return (agreeing, error);
    }
}
