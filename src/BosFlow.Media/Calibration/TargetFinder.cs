using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Media.Fiducials;
using OpenCvSharp;

namespace BosFlow.Media.Calibration;

/// <summary>Finds the points of a calibration target in a picture. Thread-safe.</summary>
/// <remarks>Detection by OpenCV: checkerboards by the sector-based method (A. Duda and U. Frese 2018), grids of discs by blobs, boards by their fiducials.</remarks>
public static class TargetFinder
{
    // Two fiducials: one alone could be a chance.
    private const int FewestCorners = 8;

    // Corners are refined by the grey levels around them, in a window that holds no second corner: it takes the errors of exact pictures from 0.1 to 0.04 px.
    private const double WindowOfSquare = 0.35;
    private const double LargestHalfWindow = 10;
    private const int LeastHalfWindow = 2;

    /// <summary>Finds the target.</summary>
    /// <param name="target">What to look for.</param>
    /// <param name="picture">The picture.</param>
    /// <returns>The points found, all of a grid or those of every fiducial; empty where the target is not found.</returns>
    public static IReadOnlyList<TargetPoint> Find(CalibrationTarget target, GrayImage picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        QuietOpenCv.Ensure();
        return target switch
        {
            CalibrationTarget.Checkerboard board => Grid(board.Columns, board.Rows, board.SquareMetres, Corners(board, picture)),
            CalibrationTarget.Circles circles => Grid(circles.Columns, circles.Rows, circles.SpacingMetres, Centres(circles, picture)),
            CalibrationTarget.PrintedBoard board => Fiducials(board, picture),
            _ => throw new ArgumentOutOfRangeException(nameof(target)),
        };
    }

    private static Point2f[] Corners(CalibrationTarget.Checkerboard board, GrayImage picture)
    {
        using Mat image = Mat.FromPixelData(picture.Height, picture.Width, MatType.CV_8UC1, StretchedLevels.Of(picture));
        ChessboardFlags flags = ChessboardFlags.NormalizeImage | ChessboardFlags.Accuracy | ChessboardFlags.Exhaustive;
        if (!Cv2.FindChessboardCornersSB(image, new Size(board.Columns, board.Rows), out Point2f[] corners, flags))
            return [];
        int half = (int)Math.Min(LargestHalfWindow, WindowOfSquare * SmallestSquare(corners, board.Columns));
        return half < LeastHalfWindow
            ? corners
            : Cv2.CornerSubPix(image, corners, new Size(half, half), new Size(-1, -1), new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 60, 1e-3));
    }

    // The shortest distance of neighbours in a row or a column, px.
    private static double SmallestSquare(Point2f[] corners, int columns)
    {
        double smallest = double.PositiveInfinity;
        for (int i = 0; i < corners.Length; i++)
        {
            if (i % columns > 0)
                smallest = Math.Min(smallest, corners[i].DistanceTo(corners[i - 1]));
            if (i >= columns)
                smallest = Math.Min(smallest, corners[i].DistanceTo(corners[i - columns]));
        }

        return smallest;
    }

    private static Point2f[] Centres(CalibrationTarget.Circles circles, GrayImage picture)
    {
        using Mat image = Mat.FromPixelData(picture.Height, picture.Width, MatType.CV_8UC1, StretchedLevels.Of(picture));
        var parameters = new SimpleBlobDetector.Params
        {
            FilterByArea = true,
            MinArea = 20,
            MaxArea = picture.Width * picture.Height / 20f,
            MinDistBetweenBlobs = 4,
            ThresholdStep = 5,
        };
        using SimpleBlobDetector detector = SimpleBlobDetector.Create(parameters);
        FindCirclesGridFlags flags = FindCirclesGridFlags.SymmetricGrid | FindCirclesGridFlags.Clustering;
        return Cv2.FindCirclesGrid(image, new Size(circles.Columns, circles.Rows), out Point2f[] centres, flags, detector) ? centres : [];
    }

    private static List<TargetPoint> Grid(int columns, int rows, double spacing, Point2f[] found)
    {
        var points = new List<TargetPoint>(found.Length);
        if (found.Length != columns * rows)
            return points;
        for (int i = 0; i < found.Length; i++)
            points.Add(new TargetPoint(spacing * (i % columns), spacing * (i / columns), found[i].X, found[i].Y));
        return points;
    }

    private static IReadOnlyList<TargetPoint> Fiducials(CalibrationTarget.PrintedBoard board, GrayImage picture)
    {
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(FiducialFinder.Find(picture), board.Printed.Fiducials, picture.Width, picture.Height);
        return corners.Count < FewestCorners ? [] : [.. corners.Select(corner => new TargetPoint(corner.X, corner.Y, corner.Column, corner.Row))];
    }
}
