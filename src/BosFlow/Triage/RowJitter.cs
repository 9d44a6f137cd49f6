namespace BosFlow.Triage;

/// <summary>How unsteadily the rows of the picture move: the change of their motion from one pair of frames to the next.</summary>
/// <remarks>
/// A vibration shakes every row alike in the course of time, though not at the same time. Electronic stabilisation holds the picture by one row's motion, or by the mean of all: where a camera reads
/// its rows one after the other the others go on shaking.
/// </remarks>
internal static class RowJitter
{
    private const int FewestSteps = 6;

    /// <summary>RMS, px, x and y together: median over the rows, and of the row that moves most steadily; the whole picture counts as one more row. NaN where too few neighbouring pairs are known.</summary>
    public static (double Median, double Least) Of(IReadOnlyList<PairReading> pairs)
    {
        int rows = pairs.Select(pair => pair.RowShifts.Count).DefaultIfEmpty(0).Max();
        double[] ofRows = [.. Enumerable.Range(0, rows).Select(row => Jitter(pairs, pair => row < pair.RowShifts.Count ? pair.RowShifts[row] : (double.NaN, double.NaN)))];
        double whole = Jitter(pairs, pair => (pair.ShiftX, pair.ShiftY));
        return (Spread.Median(ofRows), Spread.Quantile(ofRows.Append(whole), 0));
    }

    private static double Jitter(IReadOnlyList<PairReading> pairs, Func<PairReading, (double X, double Y)> motionOf)
    {
        var steps = new List<double>();
        for (int i = 1; i < pairs.Count; i++)
        {
            if (pairs[i].Burst != pairs[i - 1].Burst || pairs[i].Index != pairs[i - 1].Index + 1)
                continue;
            (double x, double y) = motionOf(pairs[i]);
            (double beforeX, double beforeY) = motionOf(pairs[i - 1]);
            double squared = ((x - beforeX) * (x - beforeX)) + ((y - beforeY) * (y - beforeY));
            if (double.IsFinite(squared))
                steps.Add(Math.Sqrt(squared));
        }

        return steps.Count < FewestSteps ? double.NaN : Spread.Rms(steps);
    }
}
