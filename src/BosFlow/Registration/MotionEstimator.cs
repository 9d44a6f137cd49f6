using System.Collections.Concurrent;
using System.Numerics;
using BosFlow.Camera;
using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Finds the motion of the background from tiles of the undisturbed region, at full resolution.</summary>
/// <remarks>
/// Coarse: 6 tiles of up to 256 px, normalised correlation by FFT, the similarity motion that all of them agree on; else up to 12 tiles and the motion that most of them agree on; where
/// they do not agree, the same with tiles turned by one and two degrees either way.
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
    private const int FirstTiles = 6; // all of them agree by accident less than once in 1e9 frames: four shifts, each within 3 px of one in 128
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
    private readonly CoarseSearch? coarse;
    private readonly FineSearch? fine;
    private readonly Lazy<IReadOnlyList<CoarseSearch>> turned = new([]);
    private readonly ConcurrentBag<(CoarseSearch.Workspace Coarse, FineSearch.Workspace Fine)> idle = [];

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
        IReadOnlyList<ReferenceTile> large = Tiles(reference, undisturbed, Math.Min(fitting, Math.Max(wanted, LargestFineTile)), CoarseTiles, out coarseSize);
        IReadOnlyList<ReferenceTile> small = Tiles(reference, undisturbed, Math.Min(fitting, LargestFineTile), FineTiles, out int fineSize);
        if (large.Count > 0 && small.Count > 0)
        {
            coarse = new CoarseSearch(large, coarseSize, largestShift);
            fine = new FineSearch(small, fineSize, FineRadius);
            turned = new Lazy<IReadOnlyList<CoarseSearch>>(() =>
                [.. Turns.Select(degrees => new CoarseSearch(TurnedTiles.Of(reference, undisturbed, large, coarseSize, degrees), coarseSize, largestShift))]);
        }
        else
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
        if (coarse is null || fine is null)
            return new MotionEstimate(PlanarMotion.Identity, 1, null);
        if (!idle.TryTake(out (CoarseSearch.Workspace Coarse, FineSearch.Workspace Fine) work))
            work = (new CoarseSearch.Workspace(coarseSize), fine.NewWorkspace());
        MotionEstimate estimate = Estimate(frame, coarse, fine, work, cancellationToken);
        idle.Add(work);
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

    private MotionEstimate Estimate(
        GrayImage frame, CoarseSearch coarse, FineSearch fine, (CoarseSearch.Workspace Coarse, FineSearch.Workspace Fine) work, CancellationToken cancellationToken)
    {
        if (Start(frame, coarse, work.Coarse, cancellationToken) is not { } start)
        {
            return new MotionEstimate(PlanarMotion.Identity, 0, FormattableString.Invariant(
                $"The background could not be found again within {largestShift} px: too few of {coarse.Count} places of the undisturbed region agree on a motion; the shake is larger, or the frame is blurred, hidden or of another board."));
        }

        List<TileShift> refined = InIdeal(fine.Find(frame, Seen(start), work.Fine, cancellationToken));
        PlanarMotion motion = Fit(refined) ?? start;
        return new MotionEstimate(Seen(motion), AgreeingShare(motion, refined, fine.Count), null);
    }

    private IPictureMotion Seen(PlanarMotion motion) => lens is null ? motion : new LensedMotion(motion, lens);

    // Where a plane moves before a lens that bends, only its ideal picture moves as a plane does.
    private List<TileShift> InIdeal(List<TileShift> shifts) => lens is null
        ? shifts
        : [.. shifts.Select(shift => lens.ToIdeal(shift.X, shift.Y, shift.U, shift.V)).Where(shift => double.IsFinite(shift.U + shift.V)).Select(shift => new TileShift(shift.X, shift.Y, shift.U, shift.V))];

    // Nearly every frame is found by a few tiles that all agree, nearly every other one by most of all tiles; a frame that is turned by more than a degree only by turned ones, of
    // which the best agreement counts.
    private PlanarMotion? Start(GrayImage frame, CoarseSearch search, CoarseSearch.Workspace work, CancellationToken cancellationToken)
    {
        double farthest = largestShift + AgreementPixels;
        int first = Math.Min(FirstTiles, search.Count);
        List<TileShift> shifts = InIdeal(search.Find(frame, 0, first, farthest, work, cancellationToken));
        if (shifts.Count == FirstTiles && TileConsensus.Find(shifts, FirstTiles) is { Agreeing.Count: FirstTiles } all)
            return all.Motion;
        shifts.AddRange(InIdeal(search.Find(frame, first, search.Count, farthest, work, cancellationToken)));
        if (TileConsensus.Find(shifts, search.Count) is (PlanarMotion plain, _))
            return plain;
        double lever = TileConsensus.LargestTurn * double.Hypot(width, height) / 2;
        (PlanarMotion Motion, IReadOnlyList<TileShift> Agreeing)? best = null;
        foreach (CoarseSearch tiles in turned.Value)
        {
            shifts = InIdeal(tiles.Find(frame, 0, tiles.Count, farthest + lever, work, cancellationToken));
            if (TileConsensus.Find(shifts, tiles.Count) is { } found && found.Agreeing.Count > (best?.Agreeing.Count ?? 0))
                best = found;
        }

        return best?.Motion;
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

    private static double AgreeingShare(PlanarMotion motion, List<TileShift> shifts, int tiles)
    {
        int agreeing = 0;
        foreach (TileShift shift in shifts)
        {
            (double u, double v) = motion.DisplacementAt(shift.X, shift.Y);
            if (Math.Abs(u - shift.U) < AgreementPixels && Math.Abs(v - shift.V) < AgreementPixels)
                agreeing++;
        }

        return (double)agreeing / tiles;
    }
}
