using System.Collections.Concurrent;
using System.Numerics;
using BosFlow.Camera;
using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Finds the motion of the background from tiles of the undisturbed region, at full resolution.</summary>
/// <remarks>
/// Coarse: up to 12 tiles of up to 256 px, normalised correlation by FFT, the similarity motion that most tiles agree on; where they do not agree, the same with tiles turned by one and two degrees either way.
/// Fine: up to 32 tiles of up to 64 px where the coarse motion puts them, then a robust fit of the model. Pixels are never averaged
/// down: speckle of minimal spacing has no contrast at long wavelengths and would alias there.
/// Expected error below 0.1 px for dots of 2 to 5 px; good enough to start from, the final motion is fitted to measured vectors.
/// Safe for several threads: each call takes working memory of its own.
/// </remarks>
public sealed class MotionEstimator : IMotionEstimator
{
    private const int LargestCoarseTile = 256;
    private const int LargestFineTile = 64;
    private const int SmallestTile = 16;
    private const int CoarseTiles = 12;
    private const int FineTiles = 32;
    private const int FineRadius = 20;
    private const double TrustedUncertaintyPixels = 0.3;
    private const double AgreementPixels = 1; // a shift of just the limit may be measured a little beyond
    private static readonly double[] Turns = [-1, 1, -2, 2]; // degrees; a tile of 256 px bears half a degree to either side

    private readonly MotionModel model;
    private readonly LensModel? lens;
    private readonly int largestShift;
    private readonly int width;
    private readonly int height;
    private readonly int coarseSize;
    private readonly int fineSize;
    private readonly IReadOnlyList<ReferenceTile> coarse = [];
    private readonly IReadOnlyList<ReferenceTile> fine = [];
    private readonly Lazy<IReadOnlyList<IReadOnlyList<ReferenceTile>>> turned = new([]);
    private readonly ConcurrentBag<(TileCorrelator Coarse, TileCorrelator Fine)> idle = [];

    /// <summary>Chooses the tiles.</summary>
    /// <param name="reference">Reference picture; NaN pixels are left out.</param>
    /// <param name="undisturbed">Pixels without flow; same size.</param>
    /// <param name="settings">Motion model and largest shift.</param>
    /// <exception cref="ArgumentException">The mask has another size.</exception>
    public MotionEstimator(GrayImage reference, PixelMask undisturbed, RegistrationSettings settings)
    {
        ArgumentNullException.ThrowIfNull(reference);
        ArgumentNullException.ThrowIfNull(undisturbed);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentOutOfRangeException.ThrowIfLessThan(settings.LargestShiftPixels, 1, nameof(settings));
        if (undisturbed.Width != reference.Width || undisturbed.Height != reference.Height)
            throw new ArgumentException("The mask has another size than the reference.", nameof(undisturbed));
        model = settings.Motion;
        lens = settings.Lens;
        largestShift = settings.LargestShiftPixels;
        (width, height) = (reference.Width, reference.Height);
        if (model == MotionModel.None)
            return;
        int fitting = Math.Min(width, height) < SmallestTile ? 0 : 1 << BitOperations.Log2((uint)Math.Min(width, height));
        int wanted = (int)BitOperations.RoundUpToPowerOf2((uint)Math.Min(LargestCoarseTile, 4L * largestShift));
        coarse = Tiles(reference, undisturbed, Math.Min(fitting, Math.Max(wanted, LargestFineTile)), CoarseTiles, out coarseSize);
        turned = new Lazy<IReadOnlyList<IReadOnlyList<ReferenceTile>>>(() => [.. Turns.Select(degrees => TurnedTiles.Of(reference, undisturbed, coarse, coarseSize, degrees))]);
        fine = Tiles(reference, undisturbed, Math.Min(fitting, LargestFineTile), FineTiles, out fineSize);
        if (coarse.Count == 0 || fine.Count == 0)
        {
            Unusable = FormattableString.Invariant(
                $"The undisturbed region offers no place of at least {SmallestTile} x {SmallestTile} px with texture: the search starts from no motion; leave more of the picture outside the flow polygons.");
        }
    }

    /// <inheritdoc/>
    public string? Unusable { get; }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">The frame has another size than the reference.</exception>
    public MotionEstimate Estimate(GrayImage frame, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(frame);
        if (frame.Width != width || frame.Height != height)
            throw new ArgumentException($"The frame is {frame.Width} x {frame.Height} px, the reference {width} x {height}.", nameof(frame));
        if (model == MotionModel.None || Unusable is not null)
            return new MotionEstimate(PlanarMotion.Identity, 1, null);
        if (!idle.TryTake(out (TileCorrelator Coarse, TileCorrelator Fine) scratch))
            scratch = (new TileCorrelator(coarseSize), new TileCorrelator(fineSize));
        MotionEstimate estimate = Estimate(frame, scratch.Coarse, scratch.Fine, cancellationToken);
        idle.Add(scratch);
        return estimate;
    }

    private static IReadOnlyList<ReferenceTile> Tiles(GrayImage reference, PixelMask undisturbed, int largest, int most, out int size)
    {
        // A narrow strip beside the flow holds small tiles only; few large ones are worth less than more smaller ones.
        const int Enough = 4;
        IReadOnlyList<ReferenceTile> tiles = [];
        size = SmallestTile;
        for (int side = largest; side >= SmallestTile && tiles.Count < Enough; side /= 2)
        {
            IReadOnlyList<ReferenceTile> found = TileSelection.Choose(reference, undisturbed, side, most);
            if (found.Count <= tiles.Count)
                continue;
            tiles = found;
            size = side;
        }

        return tiles;
    }

    private MotionEstimate Estimate(GrayImage frame, TileCorrelator coarseCorrelator, TileCorrelator fineCorrelator, CancellationToken cancellationToken)
    {
        if (Start(frame, coarseCorrelator, cancellationToken) is not { } start)
        {
            return new MotionEstimate(PlanarMotion.Identity, 0, FormattableString.Invariant(
                $"The background could not be found again within {largestShift} px: too few of {coarse.Count} places of the undisturbed region agree on a motion; the shake is larger, or the frame is blurred, hidden or of another board."));
        }

        List<TileShift> refined = InIdeal(FineShifts(frame, fineCorrelator, Seen(start), cancellationToken));
        PlanarMotion motion = Fit(refined) ?? start;
        return new MotionEstimate(Seen(motion), AgreeingShare(motion, refined), null);
    }

    private IPictureMotion Seen(PlanarMotion motion) => lens is null ? motion : new LensedMotion(motion, lens);

    // Where a plane moves before a lens that bends, only its ideal picture moves as a plane does.
    private List<TileShift> InIdeal(List<TileShift> shifts) => lens is null
        ? shifts
        : [.. shifts.Select(shift => lens.ToIdeal(shift.X, shift.Y, shift.U, shift.V)).Where(shift => double.IsFinite(shift.U + shift.V)).Select(shift => new TileShift(shift.X, shift.Y, shift.U, shift.V))];

    // Nearly every frame is found by the tiles as they are; a frame that is turned by more than a degree only by turned ones, of which the best agreement counts.
    private PlanarMotion? Start(GrayImage frame, TileCorrelator correlator, CancellationToken cancellationToken)
    {
        if (TileConsensus.Find(InIdeal(CoarseShifts(frame, coarse, largestShift + AgreementPixels, correlator, cancellationToken)), coarse.Count) is (PlanarMotion plain, _))
            return plain;
        double lever = TileConsensus.LargestTurn * double.Hypot(width, height) / 2;
        (PlanarMotion Motion, IReadOnlyList<TileShift> Agreeing)? best = null;
        foreach (IReadOnlyList<ReferenceTile> tiles in turned.Value)
        {
            List<TileShift> shifts = InIdeal(CoarseShifts(frame, tiles, largestShift + lever + AgreementPixels, correlator, cancellationToken));
            if (TileConsensus.Find(shifts, coarse.Count) is { } found && found.Agreeing.Count > (best?.Agreeing.Count ?? 0))
                best = found;
        }

        return best?.Motion;
    }

    private List<TileShift> CoarseShifts(GrayImage frame, IReadOnlyList<ReferenceTile> tiles, double farthest, TileCorrelator correlator, CancellationToken cancellationToken)
    {
        // One tile sees three eighths of its side well in each direction; beyond, it looks from displaced places.
        int step = coarseSize / 2;
        int rings = Math.Max(0, (largestShift - (coarseSize * 3 / 8) + step - 1) / step);
        var found = new List<TileShift>();
        foreach (ReferenceTile tile in tiles)
        {
            TileShift best = default;
            double bestValue = double.NegativeInfinity;
            for (int ring = 0; ring < ((2 * rings) + 1) * ((2 * rings) + 1); ring++)
            {
                cancellationToken.ThrowIfCancellationRequested();
                int offsetX = ((ring % ((2 * rings) + 1)) - rings) * step;
                int offsetY = ((ring / ((2 * rings) + 1)) - rings) * step;
                bool seen = correlator.TryFind(tile, frame, offsetX, offsetY, coarseSize, out TileShift shift, out double value);
                if (seen && value > bestValue && Math.Abs(shift.U) <= farthest && Math.Abs(shift.V) <= farthest)
                    (best, bestValue) = (shift, value);
            }

            if (double.IsFinite(bestValue))
                found.Add(best);
        }

        return found;
    }

    private List<TileShift> FineShifts(GrayImage frame, TileCorrelator correlator, IPictureMotion start, CancellationToken cancellationToken)
    {
        var found = new List<TileShift>();
        double half = (fineSize - 1) / 2.0;
        foreach (ReferenceTile tile in fine)
        {
            cancellationToken.ThrowIfCancellationRequested();
            (double u, double v) = start.DisplacementAt(tile.Left + half, tile.Top + half);
            if (correlator.TryFind(tile, frame, (int)Math.Round(u), (int)Math.Round(v), FineRadius, out TileShift shift, out _))
                found.Add(shift);
        }

        return found;
    }

    // The richest model that the tiles support: a homography from a strip along one edge would run away at the other.
    private PlanarMotion? Fit(List<TileShift> shifts)
    {
        for (MotionModel tried = model; tried > MotionModel.None; tried--)
        {
            MotionFitResult fit = TileFit.Fit(tried, shifts);
            if (fit.Failure is null && (tried == MotionModel.Shift || fit.Uncertainty?.Largest(width, height) < TrustedUncertaintyPixels))
                return fit.Motion.Planar;
        }

        return null;
    }

    private double AgreeingShare(PlanarMotion motion, List<TileShift> shifts)
    {
        int agreeing = 0;
        foreach (TileShift shift in shifts)
        {
            (double u, double v) = motion.DisplacementAt(shift.X, shift.Y);
            if (Math.Abs(u - shift.U) < AgreementPixels && Math.Abs(v - shift.V) < AgreementPixels)
                agreeing++;
        }

        return (double)agreeing / fine.Count;
    }
}
