using System.Numerics;
using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Triage;

/// <summary>Finds the motion between two frames: of the whole picture, and of its rows beyond it.</summary>
internal static class PairAnalysis
{
    private const int LargestCoarse = 256;
    private const int FineSize = 64;
    private const int FineRadius = 14;
    private const int MostRows = 16;
    private const int Columns = 6;
    private const double LeastFound = 0.4;
    private const double Agreement = 3;

    public static PairReading Read(Frame first, Frame second, int burst, CancellationToken cancellationToken)
    {
        GrayImage a = first.Image!, b = second.Image!;
        var reading = new PairReading { Index = first.Index, Burst = burst, Difference = Difference(a, b) };
        if (Math.Min(a.Width, a.Height) < FineSize)
            return reading with { Failure = FormattableString.Invariant($"The picture is smaller than {FineSize} px.") };
        if (Coarse(a, b) is not (double u, double v))
            return reading with { Failure = "The pattern of one frame was not found in the next: the shake is larger than a quarter of the tiles, or the picture is blurred, dark or without pattern." };
        TileShift?[] shifts = Fine(a, b, (int)Math.Round(u), (int)Math.Round(v), cancellationToken);
        TileShift[] found = [.. shifts.Where(shift => shift is not null).Select(shift => shift!.Value)];
        MotionFitResult fit = TileFit.Fit(MotionModel.Similarity, found);
        if (fit.Failure is not null || found.Length < LeastFound * shifts.Length)
            return reading with { Failure = FormattableString.Invariant($"Only {found.Length} of {shifts.Length} places of one frame were found in the next.") };
        PlanarMotion whole = fit.Motion.Planar;
        (double x, double y) = whole.DisplacementAt((a.Width - 1) / 2.0, (a.Height - 1) / 2.0);
        (double wobble, double cycles, IReadOnlyList<(double X, double Y)> rows) = RowWobble.Of(shifts, Columns, whole);
        return reading with
        {
            ShiftX = x,
            ShiftY = y,
            RotationDegrees = Math.Atan2(whole.H21, whole.H11) * 180 / Math.PI,
            Wobble = wobble,
            WobbleCycles = cycles,
            RowShifts = [.. rows.Select(row => (x + row.X, y + row.Y))],
        };
    }

    private static double Difference(GrayImage a, GrayImage b)
    {
        (double black, double white) = FrameAnalysis.Range(a);
        double sum = 0;
        long count = 0;
        // A prime number of pixels apart, so that the places walk over the columns.
        for (int i = 0; i < a.Pixels.Length; i += 7)
        {
            float step = Math.Abs(a.Pixels[i] - b.Pixels[i]);
            if (float.IsNaN(step))
                continue;
            sum += step;
            count++;
        }

        return count == 0 ? double.NaN : sum / count / (white - black);
    }

    // Five large tiles; the shift that most agree with.
    private static (double U, double V)? Coarse(GrayImage a, GrayImage b)
    {
        int size = Math.Min(LargestCoarse, 1 << BitOperations.Log2((uint)(Math.Min(a.Width, a.Height) * 3 / 4)));
        var reader = new TileReader(size);
        var correlator = new TileCorrelator(size);
        var found = new List<TileShift>();
        foreach ((double x, double y) in ((double, double)[])[(0.5, 0.5), (0.1, 0.1), (0.9, 0.1), (0.1, 0.9), (0.9, 0.9)])
        {
            int left = (int)(x * (a.Width - size)), top = (int)(y * (a.Height - size));
            float[] pixels = new float[size * size];
            reader.Read(a, null, left, top, pixels);
            if (correlator.TryFind(new ReferenceTile(left, top, pixels), b, 0, 0, size, out TileShift shift, out _))
                found.Add(shift);
        }

        double u = Spread.Median(found.Select(shift => shift.U)), v = Spread.Median(found.Select(shift => shift.V));
        // A wrong peak lies anywhere; two tiles that agree within what a rotation makes of them are no chance.
        double room = Agreement + (0.02 * Math.Max(a.Width, a.Height));
        return found.Count(shift => Math.Abs(shift.U - u) < room && Math.Abs(shift.V - v) < room) >= 2 ? (u, v) : null;
    }

    private static TileShift?[] Fine(GrayImage a, GrayImage b, int u, int v, CancellationToken cancellationToken)
    {
        int rows = Math.Clamp(2 * a.Height / FineSize, 4, MostRows);
        var shifts = new TileShift?[rows * Columns];
        Parallel.For(0, rows, new ParallelOptions { CancellationToken = cancellationToken }, row =>
        {
            var reader = new TileReader(FineSize);
            var correlator = new TileCorrelator(FineSize);
            for (int column = 0; column < Columns; column++)
            {
                int left = column * (a.Width - FineSize) / (Columns - 1), top = row * (a.Height - FineSize) / (rows - 1);
                float[] pixels = new float[FineSize * FineSize];
                reader.Read(a, null, left, top, pixels);
                if (correlator.TryFind(new ReferenceTile(left, top, pixels), b, u, v, FineRadius, out TileShift shift, out _))
                    shifts[(row * Columns) + column] = shift;
            }
        });
        return shifts;
    }
}
