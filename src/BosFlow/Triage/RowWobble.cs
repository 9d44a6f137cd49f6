using BosFlow.Registration;

namespace BosFlow.Triage;

/// <summary>The part of the motion that rows have in common and the whole picture has not: what a camera leaves that reads its rows one after the other while it shakes.</summary>
internal static class RowWobble
{
    // Of a median of n values the variance is pi / 2 times that of their mean, for many of them.
    private const double MedianLoss = 1.57;

    /// <summary>RMS over the rows, px, swings over the picture, and each row's own shift beyond the whole picture's motion, px; NaN where a row showed too little.</summary>
    public static (double Pixels, double Cycles, IReadOnlyList<(double X, double Y)> Rows) Of(IReadOnlyList<TileShift?> shifts, int columns, PlanarMotion whole)
    {
        var rows = new List<(double X, double Y)>();
        var alongX = new List<double>();
        var alongY = new List<double>();
        double noise = 0;
        for (int row = 0; row < shifts.Count / columns; row++)
        {
            var u = new List<double>();
            var v = new List<double>();
            foreach (TileShift? shift in shifts.Skip(row * columns).Take(columns))
            {
                if (shift is not { } found)
                    continue;
                (double wholeU, double wholeV) = whole.DisplacementAt(found.X, found.Y);
                u.Add(found.U - wholeU);
                v.Add(found.V - wholeV);
            }

            if (u.Count < columns / 2)
            {
                rows.Add((double.NaN, double.NaN));
                continue;
            }

            rows.Add((Spread.Median(u), Spread.Median(v)));
            alongX.Add(rows[^1].X);
            alongY.Add(rows[^1].Y);
            noise += (Square(Spread.Sigma(u)) + Square(Spread.Sigma(v))) * MedianLoss / u.Count;
        }

        if (alongX.Count < 4)
            return (double.NaN, double.NaN, rows);
        double all = (alongX.Sum(Square) + alongY.Sum(Square)) / alongX.Count;
        double wobble = Math.Sqrt(Math.Max(0, all - (noise / alongX.Count)));
        List<double> stronger = alongX.Sum(Square) >= alongY.Sum(Square) ? alongX : alongY;
        int crossings = Enumerable.Range(1, stronger.Count - 1).Count(i => stronger[i] * stronger[i - 1] < 0);
        return (wobble, crossings / 2.0, rows);
    }

    private static double Square(double value) => value * value;
}
