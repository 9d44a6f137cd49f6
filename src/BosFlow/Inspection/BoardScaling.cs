using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Finds the scale of a printed board in a picture, from its fiducials and, where they are known, its dots.</summary>
/// <remarks>
/// The corners of the fiducials found give a first map from board to picture. Then the board is drawn as it should look by this map, quarter by quarter of
/// its fiducials and square by square of its dots; each is looked for near its place, and a camera is fitted anew to all places found. Each round
/// looks less far, for the map is better. A quarter or square that something hides does not agree with its drawing and is left out.
/// The correlation of many edges places each one within hundredths of a pixel, where a single corner is good to tenths.
/// </remarks>
public static class BoardScaling
{
    /// <summary>Fewest fiducials that a scale is told from: one alone could be a chance.</summary>
    public const int FewestFiducials = 2;

    private const int CornersOfFiducial = 4;
    private const int FewestDotPatches = 8;

    // How far each round looks, px, and what it takes for agreement: by chance some shift agrees the better, the more of them are tried.
    private static readonly (int Reach, double LeastCorrelation)[] Rounds = [(10, 0.6), (6, 0.5), (3, 0.4), (2, 0.4)];

    /// <summary>Finds the scale.</summary>
    /// <param name="picture">The picture; NaN where nothing is known.</param>
    /// <param name="board">The board; without its dots the fiducials alone are compared.</param>
    /// <param name="corners">Corners of the fiducials found that agree on one plane, four a fiducial, px of the picture as filmed.</param>
    /// <param name="lens">The lens; null = none is known, and its radial term is fitted with what is expected of any.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <returns>The scale with its uncertainty; null where fewer than two fiducials agree.</returns>
    public static BoardScale? Of(GrayImage picture, Board board, IReadOnlyList<PlanePoint> corners, LensModel? lens, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(board);
        ArgumentNullException.ThrowIfNull(corners);
        if (corners.Count < FewestFiducials * CornersOfFiducial)
            return null;
        PlanePoint[] ideal = [.. corners.Select(corner => Ideal(corner, lens)).Where(corner => double.IsFinite(corner.Column))];
        if (PlaneFit.Fit(PlaneModel.Photo, ideal, picture.Width, picture.Height) is not { } first)
            return null;
        BoardPatch[] patches = [.. BoardPatches.OfFiducials(board), .. BoardPatches.OfDots(board, first.PixelsPerMetre, (double)picture.Width * picture.Height)];
        var drawing = new PatchDrawing(board, new DotsByPlace(board.Dots, patches.Max(patch => patch.HalfSide)));
        PlaneFitResult fit = first;
        PlacedPatch[] placed = [];
        foreach ((int reach, double least) in Rounds)
        {
            var view = new BoardView(fit.Map, lens);
            placed = [.. Place(picture, drawing, view, patches, reach, least, cancellationToken)];
            if (placed.Count(place => place.Patch.IsDots) < FewestDotPatches)
                placed = [.. placed.Where(place => !place.Patch.IsDots)];
            if (placed.Length < FewestFiducials * CornersOfFiducial || PlaneFit.Fit(PlaneModel.Photo, [.. placed.Select(place => place.Point)], corners, picture.Width, picture.Height) is not { } better)
                return Scale(first, ideal, [], 0, corners);
            fit = better;
        }

        int sought = patches.Count(patch => patch.IsDots && IsInView(new BoardView(fit.Map, lens), patch, picture));
        return Scale(fit, [.. placed.Select(place => place.Point)], placed, sought, corners);
    }

    private static IEnumerable<PlacedPatch> Place(
        GrayImage picture, PatchDrawing drawing, BoardView view, BoardPatch[] patches, int reach, double least, CancellationToken cancellationToken)
    {
        var places = new PlacedPatch?[patches.Length];
        Parallel.For(0, patches.Length, new ParallelOptions { CancellationToken = cancellationToken }, i => places[i] = Find(picture, drawing, view, patches[i], reach, least));
        return places.OfType<PlacedPatch>();
    }

    private static PlacedPatch? Find(GrayImage picture, PatchDrawing drawing, BoardView view, BoardPatch patch, int reach, double least)
    {
        (double x, double y) = view.ToPicture(patch.X, patch.Y);
        double half = patch.HalfSide * view.PixelsPerMetre(patch.X, patch.Y);
        // Also true for NaN.
        if (!(x >= 0 && y >= 0 && x < picture.Width && y < picture.Height && half >= 4))
            return null;
        int side = 2 * (int)half;
        int left = (int)Math.Round(x) - (side / 2);
        int top = (int)Math.Round(y) - (side / 2);
        if (PatchMatch.Find(picture, drawing.Draw(view, patch, left, top, side), left, top, side, reach) is not { } found || found.Correlation < least)
            return null;
        PlanePoint point = Ideal(new PlanePoint(patch.X, patch.Y, patch.OutwardX, patch.OutwardY, x + found.X, y + found.Y), view.Lens);
        return double.IsFinite(point.Column) ? new PlacedPatch(patch, point) : null;
    }

    private static bool IsInView(BoardView view, BoardPatch patch, GrayImage picture)
    {
        (double x, double y) = view.ToPicture(patch.X, patch.Y);
        double far = (patch.HalfSide * view.PixelsPerMetre(patch.X, patch.Y)) + Rounds[^1].Reach + 1;
        return x >= far && y >= far && x < picture.Width - far && y < picture.Height - far;
    }

    private static BoardScale Scale(PlaneFitResult fit, PlanePoint[] points, PlacedPatch[] placed, int sought, IReadOnlyList<PlanePoint> corners)
    {
        double relative = fit.PixelsPerMetreSigma / fit.PixelsPerMetre * TogetherFactor.Of(fit, points);
        return new BoardScale
        {
            MetresPerPixel = 1 / fit.PixelsPerMetre,
            MetresPerPixelSigma = relative / fit.PixelsPerMetre,
            Fiducials = corners.Count / CornersOfFiducial,
            DotPatches = placed.Count(place => place.Patch.IsDots),
            DotPatchesSought = sought,
            RmsPixels = fit.RmsPixels,
            TiltRadians = fit.TiltRadians,
            TiltSigma = fit.TiltSigma,
        };
    }

    private static PlanePoint Ideal(PlanePoint point, LensModel? lens)
    {
        if (lens is null)
            return point;
        (double x, double y) = lens.ToIdeal(point.Column, point.Row);
        return point with { Column = x, Row = y };
    }

    private sealed record PlacedPatch(BoardPatch Patch, PlanePoint Point);
}
