using BosFlow.Camera;

namespace BosFlow.Tests.Camera;

/// <summary>Cameras before a board of 280 mm x 200 mm, and the corners of squares on it.</summary>
internal static class PlaneCameras
{
    public const int Width = 2400;
    public const int Height = 1800;

    public static PlaneCamera At(double tiltX, double tiltY, double focal = 3000, double ratio = 1, double radial = 0) => new()
    {
        FocalPixels = focal,
        CentreX = (Width - 1) / 2.0,
        CentreY = (Height - 1) / 2.0,
        Rotation = (tiltX, tiltY, 0.05),
        Origin = (0.14, 0.10),
        Position = (0.002, -0.003, focal / 7500),
        PrintScaleX = Math.Sqrt(ratio),
        PrintScaleY = 1 / Math.Sqrt(ratio),
        Radial = radial,
        Radius = Width / 2.0,
    };

    /// <summary>Corners of eight squares of 16 mm around the border, with the growth of their edges.</summary>
    public static List<PlanePoint> Corners(PlaneMap map, double growth = 0)
    {
        var points = new List<PlanePoint>();
        foreach ((double x, double y) in new[] { (0.01, 0.01), (0.14, 0.01), (0.27, 0.01), (0.01, 0.10), (0.27, 0.10), (0.01, 0.19), (0.14, 0.19), (0.27, 0.19) })
        {
            foreach ((int outX, int outY) in new[] { (-1, -1), (1, -1), (1, 1), (-1, 1) })
            {
                double cornerX = x + (outX * 0.008);
                double cornerY = y + (outY * 0.008);
                (double column, double row) = map.ToPicture(cornerX + (outX * growth), cornerY + (outY * growth));
                points.Add(new PlanePoint(cornerX, cornerY, outX, outY, column, row));
            }
        }

        return points;
    }
}
