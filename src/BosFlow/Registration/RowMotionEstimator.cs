using System.Collections.Concurrent;
using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>Finds the motion of a background that was read row by row, band after band.</summary>
/// <remarks>
/// Within a tall tile the rows have moved differently and no shift fits all of it, so the tiles are as low as they can be: 32 px. One band of them is searched for over the whole
/// range; from there the search goes up and down, where a neighbouring band has moved by a few px only. The smooth motion through all tiles is where the engine starts.
/// Safe for several threads: each call takes working memory of its own.
/// </remarks>
public sealed class RowMotionEstimator : IMotionEstimator
{
    private const int TileSize = 32;
    private const int TilesInBand = 8;
    private const int FewestTilesInBand = 2;
    private const int Radius = 12;         // what a tile of 32 px sees well: three eighths of its side
    private const int NearbyRings = 1;
    private const int MostStarts = 6;
    private const int WidestGap = 3;
    private const double LowestShareOfBands = 0.5;
    private const double IntervalsForEachBand = 0.75; // finer knots than bands would ripple
    private const double TilePixels = 0.3; // what the shift of a tile is good to where rows move fast
    private const int SplineOrder = 3;
    private const int SharpeningRounds = 2;

    private readonly RowModel model;
    private readonly RowMotionFitter fitter;
    private readonly LensModel? lens;
    private readonly int largestShift;
    private readonly RowBand[] bands;
    private readonly int[] starts;
    private readonly TileRefiner refiner;
    private readonly ConcurrentBag<(TileCorrelator Correlator, BSplineImage Surface)> idle = [];

    /// <summary>Chooses the tiles.</summary>
    /// <param name="reference">Reference picture; NaN pixels are left out.</param>
    /// <param name="undisturbed">Pixels without flow; same size.</param>
    /// <param name="settings">Largest shift.</param>
    /// <param name="model">What rows may do.</param>
    public RowMotionEstimator(GrayImage reference, PixelMask undisturbed, RegistrationSettings settings, RowModel model)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(undisturbed);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(model);
        largestShift = settings.LargestShiftPixels;
        bands = Bands(reference, undisturbed);
        this.model = model.Coarser((int)(IntervalsForEachBand * bands.Length));
        fitter = new RowMotionFitter(this.model, 1, TilePixels);
        lens = model.Lens;
        refiner = new TileRefiner(reference, undisturbed, settings.Motion, this.model, lens);
        double middle = reference.Height / 2.0;
        starts = [.. Enumerable.Range(0, bands.Length).OrderByDescending(band => bands[band].Tiles.Count).ThenBy(band => Math.Abs(bands[band].Middle - middle)).Take(MostStarts)];
        if (bands.Length * TileSize < LowestShareOfBands * reference.Height || bands.Sum(band => band.Tiles.Count) < 2 * this.model.Unknowns)
        {
            Unusable = FormattableString.Invariant(
                $"The undisturbed region offers too few places of {TileSize} x {TileSize} px with texture for a motion by rows: the search starts from no motion; leave more of the picture outside the flow polygons.");
        }
    }

    /// <inheritdoc/>
    public string? Unusable { get; }

    /// <inheritdoc/>
    public MotionEstimate Estimate(GrayImage frame, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(frame);
        if (Unusable is not null)
            return new MotionEstimate(PlanarMotion.Identity, 1, null);
        if (!idle.TryTake(out (TileCorrelator Correlator, BSplineImage Surface) scratch))
            scratch = (new TileCorrelator(TileSize), new BSplineImage(SplineOrder));
        MotionEstimate estimate = Estimate(frame, scratch.Correlator, cancellationToken);
        if (estimate.Failure is null)
            estimate = Sharpen(frame, scratch.Surface, estimate);
        idle.Add(scratch);
        return estimate;
    }

    private static RowBand[] Bands(GrayImage reference, PixelMask undisturbed)
    {
        var bands = new List<RowBand>();
        if (Math.Min(reference.Width, reference.Height) < TileSize)
            return [];
        foreach (int top in TileSelection.BandTops(reference.Height, TileSize, TileSize))
        {
            IReadOnlyList<ReferenceTile> tiles = TileSelection.Band(reference, undisturbed, TileSize, top, TilesInBand);
            if (tiles.Count >= FewestTilesInBand)
                bands.Add(new RowBand(top + ((TileSize - 1) / 2.0), tiles));
        }

        return [.. bands];
    }

    private MotionEstimate Estimate(GrayImage frame, TileCorrelator correlator, CancellationToken cancellationToken)
    {
        if (Start(frame, correlator, cancellationToken) is not (int first, BandMotion motion, IReadOnlyList<TileShift> tiles))
        {
            return Lost(FormattableString.Invariant(
                $"The background could not be found again within {largestShift} px: in none of {starts.Length} bands of rows do most places of the undisturbed region agree on a motion; the shake is larger, or the frame is blurred, hidden or of another board."));
        }

        var found = new List<TileShift>(tiles);
        int seen = 1 + Follow(frame, correlator, first, motion, 1, found, cancellationToken) + Follow(frame, correlator, first, motion, -1, found, cancellationToken);
        if (seen < LowestShareOfBands * bands.Length)
        {
            return Lost(FormattableString.Invariant(
                $"The motion of the rows could be followed over {seen} of {bands.Length} bands of the picture only: the frame is blurred or hidden, or the shake within the frame is too fast."));
        }

        MotionFitResult fit = fitter.FitTrusted(
            [.. found.Select(tile => tile.X)], [.. found.Select(tile => tile.Y)], [.. found.Select(tile => tile.U)], [.. found.Select(tile => tile.V)]);
        return fit.Failure is null
            ? new MotionEstimate(lens is null ? fit.Motion : new LensedMotion(fit.Motion, lens), (double)fit.InlierCount / bands.Sum(band => band.Tiles.Count), null)
            : Lost(fit.Failure);
    }

    // Where rows move fast, tiles are smeared and their shifts off by tenths of a pixel from band to band; what ripples within a window the engine cannot take back.
    private MotionEstimate Sharpen(GrayImage frame, BSplineImage surface, MotionEstimate estimate)
    {
        surface.Load(FilledPicture.Of(frame).Pixels, frame.Width, frame.Height);
        MotionFitResult fit = refiner.Refine(surface, estimate.Motion, SharpeningRounds);
        return fit.Failure is null ? estimate with { Motion = fit.Motion } : estimate;
    }

    private static MotionEstimate Lost(string why) => new(PlanarMotion.Identity, 0, why);

    private (int Band, BandMotion Motion, IReadOnlyList<TileShift> Tiles)? Start(GrayImage frame, TileCorrelator correlator, CancellationToken cancellationToken)
    {
        int all = Math.Max(0, (largestShift - Radius + (TileSize / 2) - 1) / (TileSize / 2));
        foreach (int rings in all > NearbyRings ? (int[])[NearbyRings, all] : [all])
        {
            foreach (int band in starts)
            {
                List<TileShift> shifts = Look(frame, correlator, bands[band], default, rings, cancellationToken);
                if (BandConsensus.Find(model, shifts, bands[band].Tiles.Count, default) is (BandMotion motion, var agreeing))
                    return (band, motion, agreeing);
            }
        }

        return null;
    }

    /// <summary>Follows the motion from band to band in one direction; returns how many were found.</summary>
    private int Follow(GrayImage frame, TileCorrelator correlator, int from, BandMotion start, int direction, List<TileShift> found, CancellationToken cancellationToken)
    {
        BandMotion motion = start;
        int seen = 0;
        int lastSeen = from;
        for (int band = from + direction; band >= 0 && band < bands.Length; band += direction)
        {
            double gap = Math.Abs(bands[band].Middle - bands[lastSeen].Middle) / TileSize;
            int rings = Math.Clamp((int)Math.Round(gap) - 1, 0, WidestGap);
            List<TileShift> shifts = Look(frame, correlator, bands[band], motion, rings, cancellationToken);
            if (BandConsensus.Find(model, shifts, bands[band].Tiles.Count, motion) is not (BandMotion next, var agreeing))
                continue;
            found.AddRange(agreeing);
            (motion, lastSeen) = (next, band);
            seen++;
        }

        return seen;
    }

    /// <summary>Looks for every tile of a band about the place where a motion puts it; each tile keeps its best correlation.</summary>
    private List<TileShift> Look(GrayImage frame, TileCorrelator correlator, RowBand band, BandMotion about, int rings, CancellationToken cancellationToken)
    {
        const int Step = TileSize / 2;
        const double Half = (TileSize - 1) / 2.0;
        double farthest = largestShift + 1; // a shift of just the limit may be measured a little beyond
        var found = new List<TileShift>(band.Tiles.Count);
        foreach (ReferenceTile tile in band.Tiles)
        {
            (double u, double v) = Seen(about, tile.Left + Half, tile.Top + Half);
            TileShift best = default;
            double bestValue = double.NegativeInfinity;
            for (int down = -rings; down <= rings; down++)
            {
                cancellationToken.ThrowIfCancellationRequested();
                for (int right = -rings; right <= rings; right++)
                {
                    bool isSeen = correlator.TryFind(tile, frame, (int)Math.Round(u) + (right * Step), (int)Math.Round(v) + (down * Step), Radius, out TileShift shift, out double value);
                    if (isSeen && value > bestValue && Math.Abs(shift.U) <= farthest && Math.Abs(shift.V) <= farthest)
                        (best, bestValue) = (shift, value);
                }
            }

            if (double.IsFinite(bestValue))
                found.Add(InIdeal(best));
        }

        return found;
    }

    /// <summary>Where the motion of a band, given in the ideal picture, puts a place of the picture as filmed.</summary>
    private (double U, double V) Seen(BandMotion motion, double x, double y)
    {
        if (lens is null)
            return motion.At(model.Across(x));
        (double idealX, double idealY) = lens.ToIdeal(x, y);
        (double u, double v) = motion.At(model.Across(idealX));
        (double seenX, double seenY) = lens.ToPicture(idealX + u, idealY + v);
        return double.IsFinite(seenX + seenY) ? (seenX - x, seenY - y) : (0, 0);
    }

    // Rows of the sensor move as the camera does in the ideal picture only.
    private TileShift InIdeal(TileShift shift)
    {
        if (lens is null)
            return shift;
        (double x, double y, double u, double v) = lens.ToIdeal(shift.X, shift.Y, shift.U, shift.V);
        return new TileShift(x, y, u, v);
    }
}
