using BosFlow.Camera;
using BosFlow.Speckle.Boards;
using OpenCvSharp;

namespace BosFlow.Media.Fiducials;

/// <summary>Keeps those of the fiducials found that belong to one plane board.</summary>
public static class FiducialConsensus
{
    // A wide lens bends the outer marks by this share of the picture's longer side and they still belong to the board.
    private const double LargestMiss = 0.02;
    private const double Confidence = 0.9999;
    private const int MostTrials = 5000;

    /// <summary>The corners that agree on how the board lies.</summary>
    /// <param name="sightings">What was found in the picture.</param>
    /// <param name="fiducials">The fiducials of the board.</param>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <returns>Four points a fiducial, fiducial by fiducial; empty where the board knows none of them or no two agree.</returns>
    public static IReadOnlyList<PlanePoint> Of(IReadOnlyList<FiducialSighting> sightings, IReadOnlyList<Fiducial> fiducials, int width, int height)
    {
        ArgumentNullException.ThrowIfNull(sightings);
        ArgumentNullException.ThrowIfNull(fiducials);
        Dictionary<int, Fiducial> known = fiducials.ToDictionary(fiducial => fiducial.Id);
        PlanePoint[] points = [.. sightings.Where(sighting => known.ContainsKey(sighting.Id)).SelectMany(sighting => Corners(known[sighting.Id], sighting))];
        if (points.Length == 0)
            return [];
        QuietOpenCv.Ensure();
        using Mat plane = Mat.FromPixelData(points.Length, 1, MatType.CV_64FC2, points.SelectMany(point => new[] { point.X, point.Y }).ToArray());
        using Mat picture = Mat.FromPixelData(points.Length, 1, MatType.CV_64FC2, points.SelectMany(point => new[] { point.Column, point.Row }).ToArray());
        using var mask = new Mat();
        using Mat map = Cv2.FindHomography(plane, picture, HomographyMethods.Ransac, LargestMiss * Math.Max(width, height), mask, MostTrials, Confidence);
        if (map.Empty() || mask.Empty())
            return [];
        // A mark of which a corner misses is a false one, or half hidden.
        return [.. points.Chunk(4).Where((_, i) => Enumerable.Range(4 * i, 4).All(corner => mask.At<byte>(corner) != 0)).SelectMany(corners => corners)];
    }

    private static IEnumerable<PlanePoint> Corners(Fiducial fiducial, FiducialSighting sighting)
    {
        double half = fiducial.Side / 2;
        (int X, int Y)[] outward = [(-1, -1), (1, -1), (1, 1), (-1, 1)];
        for (int i = 0; i < 4; i++)
        {
            (int x, int y) = outward[i];
            yield return new PlanePoint(fiducial.X + (x * half), fiducial.Y + (y * half), x, y, sighting.Corners[i].X, sighting.Corners[i].Y);
        }
    }
}
