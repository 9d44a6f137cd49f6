using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>
/// Sharpens an estimated motion to a few thousandths of a pixel: the grey levels of every tile are matched to the frame by least
/// squares with gain and offset, the frame interpolated by B-spline where the motion puts the tile, and the motion fitted again.
/// </summary>
/// <remarks>
/// One step for each tile solves [gx gy f 1] d = g(M(x)) - f(x) over its pixels, with f the tile, gx, gy its gradients (five-point
/// differences) and g the frame; the shift of the frame against the motion is d's first two entries with their sign turned.
/// Source: Lucas and Kanade 1981 (from memory); gain and offset as two further unknowns (common practice, no source).
/// </remarks>
internal sealed class TileRefiner
{
    private const int Size = 64;
    private const int SmallestSize = 24;
    private const int Tiles = 24;
    private const int RowSize = 32;
    private const double RowTilePixels = 0.03; // where rows move fast a tile is less sure than elsewhere, and must not be cut for it
    private const int TilesInBand = 8;
    private const int Margin = 4;
    /// <summary>Rounds after which a motion stands still.</summary>
    public const int MostRounds = 4;

    private const double StandstillPixels = 0.002;
    private const double LargestStep = 1;

    private readonly GrayImage reference;
    private readonly PixelMask undisturbed;
    private readonly IMotionFitter fitter;
    private readonly List<(int Left, int Top)> places = [];
    private readonly int size;

    /// <summary>Chooses the tiles: a few for a motion of the whole, many low ones for a motion by rows.</summary>
    public TileRefiner(GrayImage reference, PixelMask undisturbed, MotionModel motion, RowModel? rows, LensModel? lens = null)
    {
        this.reference = reference;
        this.undisturbed = undisturbed;
        fitter = rows is null ? new PlanarMotionFitter(motion) : new RowMotionFitter(rows, 1, RowTilePixels);
        if (lens is not null)
            fitter = new LensedFitter(fitter, lens);
        size = Math.Min(rows is null ? Size : RowSize, Math.Min(reference.Width, reference.Height));
        if (size < SmallestSize)
            return;
        IEnumerable<ReferenceTile> tiles = rows is null ? TileSelection.Choose(reference, undisturbed, size, Tiles) : Bands();
        foreach (ReferenceTile tile in tiles)
            places.Add((tile.Left, tile.Top));
    }

    private IEnumerable<ReferenceTile> Bands() =>
        TileSelection.BandTops(reference.Height, size, size / 2).SelectMany(top => TileSelection.Band(reference, undisturbed, size, top, TilesInBand));

    /// <summary>Sharpens a motion.</summary>
    /// <param name="frame">The frame as a surface.</param>
    /// <param name="start">Motion good to about half a dot.</param>
    /// <param name="mostRounds">Most rounds, at least 1.</param>
    /// <returns>The fit of the last round; its failure says why there is none.</returns>
    public MotionFitResult Refine(BSplineImage frame, IPictureMotion start, int mostRounds = MostRounds)
    {
        IPictureMotion motion = start;
        MotionFitResult fit = MotionFitResult.Failed(0, "The undisturbed region offers no place with texture.");
        for (int round = 0; round < mostRounds; round++)
        {
            var shifts = new List<TileShift>(places.Count);
            foreach ((int left, int top) in places)
            {
                if (Step(frame, motion, left, top) is not (double du, double dv))
                    continue;
                double x = left + ((size - 1) / 2.0);
                double y = top + ((size - 1) / 2.0);
                (double u, double v) = motion.DisplacementAt(x, y);
                shifts.Add(new TileShift(x, y, u + du, v + dv));
            }

            fit = TileFit.Fit(fitter, motion, shifts);
            if (fit.Failure is not null)
                return fit;
            bool standsStill = shifts.TrueForAll(shift => Moved(motion, fit.Motion, shift) < StandstillPixels);
            motion = fit.Motion;
            if (standsStill)
                break;
        }

        return fit;
    }

    private static double Moved(IPictureMotion before, IPictureMotion after, TileShift place)
    {
        (double u, double v) = before.DisplacementAt(place.X, place.Y);
        (double newU, double newV) = after.DisplacementAt(place.X, place.Y);
        return Math.Max(Math.Abs(newU - u), Math.Abs(newV - v));
    }

    private (double Du, double Dv)? Step(BSplineImage frame, IPictureMotion motion, int left, int top)
    {
        const int Unknowns = 4;
        Span<double> normal = stackalloc double[Unknowns * Unknowns];
        Span<double> right = stackalloc double[Unknowns];
        Span<double> row = stackalloc double[Unknowns];
        normal.Clear();
        right.Clear();
        Span<double> us = stackalloc double[size];
        Span<double> vs = stackalloc double[size];
        int used = 0;
        for (int y = Math.Max(top, Margin); y < Math.Min(top + size, reference.Height - Margin); y++)
        {
            MotionAlongRow.Fill(motion, left, y, us, vs);
            for (int x = Math.Max(left, Margin); x < Math.Min(left + size, reference.Width - Margin); x++)
            {
                double fx = x + us[x - left];
                double fy = y + vs[x - left];
                if (!undisturbed[x, y] || fx < 0 || fy < 0 || fx > frame.Width - 1 || fy > frame.Height - 1)
                    continue;
                (row[0], row[1]) = Gradient(x, y);
                (row[2], row[3]) = (reference[x, y], 1);
                double difference = frame.Sample(fx, fy) - reference[x, y];
                if (!double.IsFinite(row[0] + row[1] + difference))
                    continue;
                used++;
                for (int i = 0; i < Unknowns; i++)
                {
                    right[i] += row[i] * difference;
                    for (int j = 0; j < Unknowns; j++)
                        normal[(i * Unknowns) + j] += row[i] * row[j];
                }
            }
        }

        if (used < size * size / 4 || !SmallCholesky.Factor(normal, Unknowns))
            return null;
        SmallCholesky.Solve(normal, Unknowns, right);
        // The solver's difference belongs to a frame that still lies ahead of the motion by minus this shift.
        double du = -right[0] / (1 + right[2]);
        double dv = -right[1] / (1 + right[2]);
        return Math.Abs(du) <= LargestStep && Math.Abs(dv) <= LargestStep ? (du, dv) : null;
    }

    // Five-point difference (1, -8, 0, 8, -1) / 12: exact for cubics.
    private (double X, double Y) Gradient(int x, int y) => (
        ((8.0 * (reference[x + 1, y] - reference[x - 1, y])) - (reference[x + 2, y] - reference[x - 2, y])) / 12,
        ((8.0 * (reference[x, y + 1] - reference[x, y - 1])) - (reference[x, y + 2] - reference[x, y - 2])) / 12);
}
