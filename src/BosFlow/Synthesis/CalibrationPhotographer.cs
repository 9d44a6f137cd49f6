using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle;

namespace BosFlow.Synthesis;

/// <summary>Photographs a plane pattern through a lens that is known exactly: for tests of calibration.</summary>
/// <remarks>
/// Each pixel is the mean of 8 x 8 points of the pattern; within a pixel the way to the plane is taken for straight, which errs by less than 1e-4 px at a distortion of
/// 10 %. A pixel wholly within one colour is not divided.
/// </remarks>
public static class CalibrationPhotographer
{
    private const int Points = 8;
    private const double White = 255;
    private const double Ink = 30;
    private const double Paper = 220;
    private const double Table = 120;

    /// <summary>Takes a photo.</summary>
    /// <param name="pattern">Share of light at a place of the plane, m: 0 ink, 1 paper, NaN beside the target.</param>
    /// <param name="pose">How the plane lies.</param>
    /// <param name="lens">The lens, with the picture's size.</param>
    /// <param name="noise">Standard deviation of the noise, digital numbers.</param>
    /// <param name="seed">Seed of the noise.</param>
    /// <returns>An 8-bit picture.</returns>
    public static GrayImage Take(Func<double, double, double> pattern, TargetPose pose, LensModel lens, double noise, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        ArgumentNullException.ThrowIfNull(lens);
        (int width, int height) = (lens.Parameters.Width, lens.Parameters.Height);
        PlaneMap plane = Plane(pose, lens);
        // Places on the plane of the corners of all pixels.
        var corners = new (double X, double Y)[(width + 1) * (height + 1)];
        Parallel.For(0, height + 1, y =>
        {
            for (int x = 0; x <= width; x++)
            {
                (double column, double row) = lens.ToIdeal(x - 0.5, y - 0.5);
                corners[(y * (width + 1)) + x] = plane.ToPlane(column, row);
            }
        });
        var random = new SeededRandom(seed);
        float[] levels = new float[width * height];
        for (int i = 0; i < levels.Length; i++)
        {
            int at = ((i / width) * (width + 1)) + (i % width);
            double level = Mean(pattern, corners[at], corners[at + 1], corners[at + width + 1], corners[at + width + 2]);
            levels[i] = (float)Math.Round(Math.Clamp(level + (noise * random.NextNormal()), 0, White));
        }

        return new GrayImage(width, height, levels, (float)White);
    }

    /// <summary>A checkerboard whose first inner corner is at the origin, with a white rim as wide as a square.</summary>
    /// <param name="columns">Inner corners in a row.</param>
    /// <param name="rows">Inner corners in a column.</param>
    /// <param name="square">Side of a square, m.</param>
    public static Func<double, double, double> Checkerboard(int columns, int rows, double square) => (x, y) =>
    {
        int column = (int)Math.Floor(x / square) + 1;
        int row = (int)Math.Floor(y / square) + 1;
        if (column < -1 || row < -1 || column > columns + 1 || row > rows + 1)
            return double.NaN;
        bool inside = column >= 0 && row >= 0 && column <= columns && row <= rows;
        return inside && (column + row) % 2 == 0 ? 0 : 1;
    };

    /// <summary>Dark discs on a square grid, the first at the origin.</summary>
    /// <param name="columns">Discs in a row.</param>
    /// <param name="rows">Discs in a column.</param>
    /// <param name="spacing">Distance of neighbouring centres, m; the diameter is half of it.</param>
    public static Func<double, double, double> Discs(int columns, int rows, double spacing) => (x, y) =>
    {
        double column = Math.Round(x / spacing);
        double row = Math.Round(y / spacing);
        if (!(x >= -spacing && y >= -spacing && x <= columns * spacing && y <= rows * spacing))
            return double.NaN;
        bool disc = column >= 0 && row >= 0 && column < columns && row < rows;
        return disc && double.Hypot(x - (column * spacing), y - (row * spacing)) <= spacing / 4 ? 0 : 1;
    };

    private static double Mean(
        Func<double, double, double> pattern, (double X, double Y) a, (double X, double Y) b, (double X, double Y) c, (double X, double Y) d)
    {
        double first = Level(pattern(a.X, a.Y));
        if (first == Level(pattern(b.X, b.Y)) && first == Level(pattern(c.X, c.Y)) && first == Level(pattern(d.X, d.Y)))
            return first;
        double sum = 0;
        for (int i = 0; i < Points * Points; i++)
        {
            double s = ((i % Points) + 0.5) / Points;
            double t = ((i / Points) + 0.5) / Points;
            double x = ((1 - t) * (a.X + (s * (b.X - a.X)))) + (t * (c.X + (s * (d.X - c.X))));
            double y = ((1 - t) * (a.Y + (s * (b.Y - a.Y)))) + (t * (c.Y + (s * (d.Y - c.Y))));
            sum += Level(pattern(x, y));
        }

        return sum / (Points * Points);
    }

    private static double Level(double share) => double.IsNaN(share) ? Table : Ink + (share * (Paper - Ink));

    private static PlaneMap Plane(TargetPose pose, LensModel lens) => new PlaneCamera
    {
        FocalPixels = lens.IdealFocal,
        CentreX = lens.Parameters.CentreX,
        CentreY = lens.Parameters.CentreY,
        Rotation = pose.Rotation,
        Position = pose.Position,
    }.ToMap();
}
