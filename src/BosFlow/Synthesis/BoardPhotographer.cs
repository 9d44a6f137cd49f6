using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle;
using BosFlow.Speckle.Boards;

namespace BosFlow.Synthesis;

/// <summary>Photographs a printed board whose every measure is known exactly: for tests of what reads it back.</summary>
/// <remarks>
/// Shapes are averaged over each pixel by 8 x 8 points; then come blur, uneven light, the grey levels' curve, noise and rounding.
/// A dot is seen as the ellipse that the map's slope at its centre makes of it. Rulers and legend are not drawn.
/// </remarks>
public static class BoardPhotographer
{
    private const int Points = 8;
    private const double TableLight = 0.3;
    private const double MiddleGrey = 0.3;
    private const double White = 255;

    /// <summary>Takes the photo.</summary>
    /// <param name="board">The board as drawn.</param>
    /// <param name="settings">Printer, camera and light.</param>
    /// <param name="cancellationToken">Stops between two dots.</param>
    /// <returns>An 8-bit picture.</returns>
    public static GrayImage Take(Board board, BoardPhotoSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(board);
        ArgumentNullException.ThrowIfNull(settings);
        PlaneMap map = settings.Camera.ToMap();
        float[] light = new float[settings.Width * settings.Height];
        PaintGround(light, board, map, settings);
        foreach (Fiducial fiducial in board.Fiducials)
            PaintFiducial(light, fiducial, board.FiducialQuietZone, map, settings);
        float[] dark = new float[light.Length];
        float[] bright = new float[light.Length];
        for (int i = 0; i < board.Dots.Count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (settings.EveryMissing > 0 && i % settings.EveryMissing == 0)
                continue;
            PrintedDot dot = board.Dots[i];
            double diameter = board.DrawnDiameter(dot) + (dot.IsLight ? -settings.InkGainMetres : settings.InkGainMetres);
            PaintDot(dot.IsLight ? bright : dark, dot, diameter / 2, map, settings);
        }

        for (int i = 0; i < light.Length; i++)
        {
            double cover = Math.Min(1, dark[i]);
            double shine = Math.Min(1, bright[i]);
            light[i] = (float)((light[i] * (1 - cover) * (1 - shine)) + (cover * settings.InkShare) + (shine * (1 - cover)));
        }

        Blur(light, settings);
        return Develop(light, settings);
    }

    private static void PaintGround(float[] light, Board board, PlaneMap map, BoardPhotoSettings settings)
    {
        double ground = board.Settings.Tones switch { BoardTones.Inverted => settings.InkShare, BoardTones.TwoTone => MiddleGrey, _ => 1 };
        for (int row = 0; row < settings.Height; row++)
        {
            for (int column = 0; column < settings.Width; column++)
            {
                (double x, double y) = map.ToPlane(column, row);
                bool onBoard = x >= 0 && y >= 0 && x <= board.Settings.WidthMetres && y <= board.Settings.HeightMetres;
                bool onPattern = x >= board.Pattern.Left && y >= board.Pattern.Top && x <= board.Pattern.Right && y <= board.Pattern.Bottom;
                light[(row * settings.Width) + column] = (float)(onPattern ? ground : onBoard ? 1 : TableLight);
            }
        }
    }

    private static void PaintFiducial(float[] light, Fiducial fiducial, double zone, PlaneMap map, BoardPhotoSettings settings)
    {
        double half = (fiducial.Side / 2) + zone;
        (double X, double Y)[] corners = [.. new[] { (-1, -1), (1, -1), (1, 1), (-1, 1) }.Select(c => map.ToPicture(fiducial.X + (c.Item1 * half), fiducial.Y + (c.Item2 * half)))];
        (int left, int right) = Bounds(corners.Min(c => c.X), corners.Max(c => c.X), settings.Width);
        (int top, int bottom) = Bounds(corners.Min(c => c.Y), corners.Max(c => c.Y), settings.Height);
        for (int row = top; row <= bottom; row++)
        {
            for (int column = left; column <= right; column++)
            {
                ref float pixel = ref light[(row * settings.Width) + column];
                double sum = 0;
                for (int i = 0; i < Points * Points; i++)
                {
                    (double x, double y) = map.ToPlane(column + Offset(i % Points), row + Offset(i / Points));
                    bool inside = Math.Abs(x - fiducial.X) <= half && Math.Abs(y - fiducial.Y) <= half;
                    sum += inside ? Ink(fiducial, x, y, settings.InkGainMetres / 2) ? settings.InkShare : 1 : pixel;
                }

                pixel = (float)(sum / (Points * Points));
            }
        }
    }

    // Ink runs by the same width over every edge: a place is black if a black cell lies within it.
    private static bool Ink(Fiducial fiducial, double x, double y, double growth)
    {
        double cell = fiducial.Side / FiducialCode.Cells;
        for (int i = 0; i < 9; i++)
        {
            double column = Math.Floor((x + (((i % 3) - 1) * growth) - fiducial.X + (fiducial.Side / 2)) / cell);
            double row = Math.Floor((y + (((i / 3) - 1) * growth) - fiducial.Y + (fiducial.Side / 2)) / cell);
            bool within = column >= 0 && row >= 0 && column < FiducialCode.Cells && row < FiducialCode.Cells;
            if (within && FiducialCode.IsBlack(fiducial.Id, (int)row, (int)column))
                return true;
        }

        return false;
    }

    private static void PaintDot(float[] cover, PrintedDot dot, double radius, PlaneMap map, BoardPhotoSettings settings)
    {
        (double centreX, double centreY) = map.ToPicture(dot.X, dot.Y);
        (double a, double b, double c, double d) = map.ScaleAt(dot.X, dot.Y);
        double determinant = (a * d) - (b * c);
        double reachX = radius * double.Hypot(a, b);
        double reachY = radius * double.Hypot(c, d);
        (int left, int right) = Bounds(centreX - reachX, centreX + reachX, settings.Width);
        (int top, int bottom) = Bounds(centreY - reachY, centreY + reachY, settings.Height);
        for (int row = top; row <= bottom; row++)
        {
            for (int column = left; column <= right; column++)
            {
                int inside = 0;
                for (int i = 0; i < Points * Points; i++)
                {
                    double u = column + Offset(i % Points) - centreX;
                    double v = row + Offset(i / Points) - centreY;
                    double x = ((d * u) - (b * v)) / determinant;
                    double y = ((a * v) - (c * u)) / determinant;
                    if ((x * x) + (y * y) <= radius * radius)
                        inside++;
                }

                cover[(row * settings.Width) + column] += (float)inside / (Points * Points);
            }
        }
    }

    private static void Blur(float[] light, BoardPhotoSettings settings)
    {
        if (settings.BlurPixels <= 0)
            return;
        int reach = (int)Math.Ceiling(4 * settings.BlurPixels);
        double[] kernel = [.. Enumerable.Range(-reach, (2 * reach) + 1).Select(i => Math.Exp(-i * i / (2 * settings.BlurPixels * settings.BlurPixels)))];
        double total = kernel.Sum();
        float[] across = new float[light.Length];
        Convolve(light, across, settings.Width, settings.Height, 1, settings.Width, kernel, total);
        Convolve(across, light, settings.Height, settings.Width, settings.Width, 1, kernel, total);
    }

    private static void Convolve(float[] from, float[] to, int length, int lines, int step, int lineStep, double[] kernel, double total)
    {
        int reach = kernel.Length / 2;
        for (int line = 0; line < lines; line++)
        {
            for (int i = 0; i < length; i++)
            {
                double sum = 0;
                for (int k = -reach; k <= reach; k++)
                    sum += kernel[k + reach] * from[(line * lineStep) + (Math.Clamp(i + k, 0, length - 1) * step)];
                to[(line * lineStep) + (i * step)] = (float)(sum / total);
            }
        }
    }

    private static GrayImage Develop(float[] light, BoardPhotoSettings settings)
    {
        var random = new SeededRandom(settings.Seed);
        double halfWidth = settings.Width / 2.0;
        double halfHeight = settings.Height / 2.0;
        double corner = (halfWidth * halfWidth) + (halfHeight * halfHeight);
        float[] levels = new float[light.Length];
        for (int i = 0; i < levels.Length; i++)
        {
            double x = (i % settings.Width) - halfWidth;
            double y = (i / settings.Width) - halfHeight;
            double lamp = settings.PaperLight * (1 - (settings.FallOff * ((x * x) + (y * y)) / corner)) * (1 + (settings.Slant * x / settings.Width));
            double level = ToneCurve.ToLevel(Math.Max(0, light[i] * lamp), settings.Tones) + (settings.Noise * random.NextNormal());
            levels[i] = (float)Math.Round(White * Math.Clamp(level, 0, 1));
        }

        return new GrayImage(settings.Width, settings.Height, levels, (float)White);
    }

    private static double Offset(int i) => ((i + 0.5) / Points) - 0.5;

    private static (int First, int Last) Bounds(double low, double high, int length) =>
        ((int)Math.Clamp(Math.Floor(low), 0, length), (int)Math.Clamp(Math.Ceiling(high), -1, length - 1));
}
