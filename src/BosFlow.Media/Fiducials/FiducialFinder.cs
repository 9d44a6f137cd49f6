using BosFlow.Camera;
using BosFlow.Footage;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace BosFlow.Media.Fiducials;

/// <summary>Finds the fiducials of a printed board in a picture. Thread-safe.</summary>
/// <remarks>Detection, identities and sub-pixel corners by OpenCV's aruco module, family ARUCO_MIP_36h12.</remarks>
public static class FiducialFinder
{
    /// <summary>Least width of a fiducial in a picture to be found, px: four to a cell.</summary>
    public const double LeastPixels = 32;

    // The family's number in OpenCV's list; the wrapper's own enumeration ends before it.
    private const int Family = 21;

    // Corners are refined within this share of a cell around the first guess, so that the window never holds two corners.
    private const float WindowOfCell = 0.4f;

    /// <summary>Finds fiducials.</summary>
    /// <param name="picture">Any picture; NaN counts as black.</param>
    /// <returns>What was found, by identity; an identity that was seen twice is left out, for one of the two is wrong.</returns>
    public static IReadOnlyList<FiducialSighting> Find(GrayImage picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        QuietOpenCv.Ensure();
        byte[] levels = StretchedLevels.Of(picture);
        using Mat image = Mat.FromPixelData(picture.Height, picture.Width, MatType.CV_8UC1, levels);
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary((PredefinedDictionaryType)Family);
        using var detector = new ArucoDetector(dictionary, Parameters(picture), new RefineParameters());
        detector.DetectMarkers(image, out Point2f[][] corners, out int[] ids, out _);
        return
        [
            .. ids.Select((id, i) => new FiducialSighting(id, [.. corners[i].Select(corner => ((double)corner.X, (double)corner.Y))]))
                .GroupBy(sighting => sighting.Id)
                .Where(same => same.Count() == 1)
                .Select(same => same.Single())
                .OrderBy(sighting => sighting.Id),
        ];
    }

    private static DetectorParameters Parameters(GrayImage picture)
    {
        double longer = Math.Max(picture.Width, picture.Height);
        return new DetectorParameters
        {
            CornerRefinementMethod = CornerRefineMethod.Subpix,
            RelativeCornerRefinmentWinSize = WindowOfCell,
            CornerRefinementWinSize = 12,
            CornerRefinementMaxIterations = 60,
            CornerRefinementMinAccuracy = 0.003,
            // Windows of the threshold from a few px to more than a cell of a large mark.
            AdaptiveThreshWinSizeMin = 5,
            AdaptiveThreshWinSizeMax = 45,
            AdaptiveThreshWinSizeStep = 10,
            MinMarkerPerimeterRate = 4 * LeastPixels / 1.5 / longer,
        };
    }
}
