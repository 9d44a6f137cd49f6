using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Numerics.Robust;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Reads a printed board back from a photo: dots, coverage, contrast, the printer's scale.</summary>
public static class BoardChecker
{
    // Four more than the blur's sigma holds all but a hundredth of a percent.
    private const double ReachSigmas = 3.5;
    private const double LeastReach = 1.5;
    private const double RoomForGain = 0.1;

    /// <summary>Checks a photo.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="board">The board as described, with its dots.</param>
    /// <param name="sightings">The fiducials found in the photo.</param>
    /// <param name="corners">Those of their corners that agree on one plane, four a fiducial.</param>
    /// <param name="settings">What else is known.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <returns>What was measured, with its uncertainty, and the verdict.</returns>
    /// <exception cref="InputDataException">The photo cannot be read: no fiducials, too few, those of another board, too coarse.</exception>
    public static BoardCheck Check(
        GrayImage photo, Board board, IReadOnlyList<FiducialSighting> sightings, IReadOnlyList<PlanePoint> corners, BoardCheckSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(board);
        ArgumentNullException.ThrowIfNull(sightings);
        ArgumentNullException.ThrowIfNull(corners);
        ArgumentNullException.ThrowIfNull(settings);
        PhotoProblems.ThrowIfNotLaid(photo, board, sightings, corners);
        PlaneModel model = settings.ScanDpi is null ? PlaneModel.Photo : PlaneModel.Scan;
        PlaneFitResult? plane = PlaneFit.Fit(model, corners, photo.Width, photo.Height);
        Fiducial[] found = [.. board.Fiducials.Where(mark => corners.Any(corner => IsCornerOf(corner, mark)))];
        PhotoProblems.ThrowIfNotFixed(plane, found);
        PhotoProblems.ThrowIfTooCoarse(photo, board, plane!);

        var picture = new LightPicture(photo, settings.Tones);
        MarkReading[] marks = [.. found.Select(mark => MarkReader.Read(picture, plane!.Map, mark, board.FiducialQuietZone, plane.EdgeGrowthMetres)).OfType<MarkReading>().Where(mark => double.IsFinite(mark.White) && double.IsFinite(mark.Black))];
        if (marks.Length == 0)
            throw new InputDataException("Every fiducial found reaches over the edge of the photo: take one that shows whole fiducials with their white zones.");
        double blur = Quantiles.Median<double>([.. marks.Select(mark => mark.BlurPixels).Where(double.IsFinite)]);
        double Reach(double radius) => Math.Max(LeastReach, ReachSigmas * blur) + (RoomForGain * radius);
        var seen = SeenBoard.Of(board, plane!.Map, found, picture, Reach, cancellationToken);
        double largest = seen.Dots.Count == 0 ? 1 : seen.Dots.Max(dot => dot.Radius);
        var cells = new DotCells(seen.Dots, photo.Width, photo.Height, Reach(largest));
        cancellationToken.ThrowIfCancellationRequested();
        var light = BoardLight.Of(board, picture, seen, cells, marks, BoardLight.ClearDistance(blur, largest));
        double scaleSigma = plane.RmsPixels / Math.Sqrt(plane.Points) / (plane.PixelsPerMetre * Extent(corners));
        var reading = DiameterReading.Of(board, picture, seen, cells, light, scaleSigma);
        PrintScaleCheck scale = PrintScales.Of(board, plane, settings);
        var check = new BoardCheck
        {
            FiducialsFound = [.. found.Select(mark => mark.Id).Order()],
            FiducialsInView = board.Fiducials.Count(mark => IsInView(plane.Map, mark, picture)),
            FiducialsOnBoard = board.Fiducials.Count,
            Plane = plane,
            BlurPixels = blur,
            Sizes = [.. reading.Sizes.Select(size => size with
            {
                DiameterMetres = size.DiameterMetres * scale.Mean,
                DiameterSigma = size.DiameterSigma * scale.Mean,
                DiameterScatter = size.DiameterScatter * scale.Mean,
            })],
            NominalCoverage = reading.NominalCoverage,
            Coverage = reading.Coverage,
            CoverageSigma = reading.CoverageSigma,
            InkGainMetres = reading.Gain * scale.Mean,
            InkGainSigma = reading.GainSigma * scale.Mean,
            IsSingle = reading.IsSingle,
            PaperLevel = ToneCurve.ToLevel(Quantiles.Median<double>([.. marks.Select(mark => mark.White)]), settings.Tones),
            InkLevel = ToneCurve.ToLevel(Quantiles.Median<double>([.. marks.Select(mark => mark.Black)]), settings.Tones),
            LightUnevenness = (marks.Max(mark => mark.White) / marks.Min(mark => mark.White)) - 1,
            Scale = scale,
            Findings = [],
            Dots = reading.Dots,
        };
        return check with { Findings = BoardFindings.Of(check, board, settings, photo, corners) };
    }

    private static bool IsCornerOf(PlanePoint corner, Fiducial mark)
    {
        double half = mark.Side / 2;
        return Math.Abs(corner.X - (mark.X + (corner.OutwardX * half))) < half / 10 && Math.Abs(corner.Y - (mark.Y + (corner.OutwardY * half))) < half / 10;
    }

    private static bool IsInView(PlaneMap map, Fiducial mark, LightPicture picture) =>
        new[] { (-1, -1), (1, -1), (1, 1), (-1, 1) }.All(corner =>
        {
            (double x, double y) = map.ToPicture(mark.X + (corner.Item1 * mark.Side / 2), mark.Y + (corner.Item2 * mark.Side / 2));
            return picture.Holds(x, y);
        });

    // RMS distance of the corners from their middle: the lever of a scale.
    private static double Extent(IReadOnlyList<PlanePoint> corners)
    {
        double x = corners.Average(corner => corner.X);
        double y = corners.Average(corner => corner.Y);
        return Math.Sqrt(corners.Average(corner => ((corner.X - x) * (corner.X - x)) + ((corner.Y - y) * (corner.Y - y))));
    }
}
