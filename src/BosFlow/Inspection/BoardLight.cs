using BosFlow.Numerics.Robust;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Light of ground, black and white at every place of a photographed board.</summary>
/// <remarks>
/// The ground is read between the dots wherever the nearest edge is farther than the blur reaches, and an even surface is laid through the
/// readings; black and white follow it by the ratios that the fiducials show. Where no such places are left, the fiducials alone give all.
/// </remarks>
internal sealed class BoardLight
{
    private const int TilesAlong = 24;
    private const int LeastPixels = 12;
    private const int LeastTiles = 30;
    private const int OrderOfTiles = 3;
    private const int OrderOfMarks = 2;
    private const double ClearSigmas = 2.5;
    private const double HalfPixelDiagonal = 0.71;

    private readonly LevelSurface ground;
    private readonly double blackRatio;
    private readonly double whiteRatio;

    private BoardLight(LevelSurface ground, IReadOnlyList<MarkReading> marks, int tiles)
    {
        this.ground = ground;
        double[] black = [.. marks.Select(mark => mark.Black / ground.At(mark.X, mark.Y))];
        double[] white = [.. marks.Select(mark => mark.White / ground.At(mark.X, mark.Y))];
        blackRatio = Quantiles.Median<double>(black);
        whiteRatio = Quantiles.Median<double>(white);
        RatioSigma = Math.Max(Scatter(black, blackRatio), Scatter(white, whiteRatio)) / Math.Sqrt(marks.Count);
        Tiles = tiles;
        GroundSigma = ground.Rms / Math.Sqrt(Math.Max(1, tiles > 0 ? tiles / (double)LevelSurface.Terms(OrderOfTiles) : marks.Count));
    }

    /// <summary>Number of places between the dots that the ground rests on; 0 where it rests on the fiducials.</summary>
    public int Tiles { get; }

    /// <summary>Standard uncertainty of the ground's light, part of full scale.</summary>
    public double GroundSigma { get; }

    /// <summary>Standard uncertainty of black or white over ground.</summary>
    public double RatioSigma { get; }

    /// <summary>Distance from the nearest edge of a dot at which the ground is free of its blur, px.</summary>
    public static double ClearDistance(double blur, double radius) => (ClearSigmas * blur) + HalfPixelDiagonal + (0.05 * radius);

    /// <summary>Reads the light.</summary>
    public static BoardLight Of(Board board, LightPicture picture, SeenBoard seen, DotCells cells, IReadOnlyList<MarkReading> marks, double clear)
    {
        List<(double X, double Y, double Value, double Weight)> readings = [.. Readings(picture, seen, cells, clear)];
        int tiles = readings.Count;
        bool isDark = board.Settings.Tones == BoardTones.Dark;
        if (tiles < LeastTiles)
        {
            bool isInverted = board.Settings.Tones == BoardTones.Inverted;
            (double X, double Y, double Value, double Weight)[] ofMarks = [.. marks.Select(mark => (mark.X, mark.Y, isInverted ? mark.Black : mark.White, 1.0))];
            return new BoardLight(LevelSurface.Fit(ofMarks, OrderOfMarks, picture.Width, picture.Height), marks, 0);
        }

        if (isDark)
            readings.AddRange(marks.Select(mark => (mark.X, mark.Y, mark.White, mark.CellPixels * mark.CellPixels)));
        return new BoardLight(LevelSurface.Fit(readings, OrderOfTiles, picture.Width, picture.Height), marks, tiles);
    }

    /// <summary>Light of the ground.</summary>
    /// <param name="x">Column, px.</param>
    /// <param name="y">Row, px.</param>
    public double Ground(double x, double y) => ground.At(x, y);

    /// <summary>Light of a dot over that of the ground.</summary>
    /// <param name="isLight">Whether the dot is lighter than the ground.</param>
    public double DotRatio(bool isLight) => isLight ? whiteRatio : blackRatio;

    private static IEnumerable<(double X, double Y, double Value, double Weight)> Readings(LightPicture picture, SeenBoard seen, DotCells cells, double clear)
    {
        int size = Math.Max(8, Math.Max(picture.Width, picture.Height) / TilesAlong);
        for (int top = 0; top < picture.Height; top += size)
        {
            for (int left = 0; left < picture.Width; left += size)
            {
                (double x, double y, double sum, int count) = (0, 0, 0, 0);
                for (int row = top; row < Math.Min(top + size, picture.Height); row++)
                {
                    for (int column = left; column < Math.Min(left + size, picture.Width); column++)
                    {
                        int at = (row * picture.Width) + column;
                        if (!seen.Pattern[at] || cells.Distance(at) < clear || IsNearBorder(seen.Pattern, column, row, picture, (int)Math.Ceiling(clear)))
                            continue;
                        x += column;
                        y += row;
                        sum += picture[at];
                        count++;
                    }
                }

                if (count >= LeastPixels)
                    yield return (x / count, y / count, sum / count, count);
            }
        }
    }

    // The white zones and the strips around the pattern are of another grey, and blur carries it over.
    private static bool IsNearBorder(bool[] pattern, int column, int row, LightPicture picture, int reach)
    {
        for (int i = 0; i < 9; i++)
        {
            int x = column + (((i % 3) - 1) * reach);
            int y = row + (((i / 3) - 1) * reach);
            if (x < 0 || y < 0 || x >= picture.Width || y >= picture.Height || !pattern[(y * picture.Width) + x])
                return true;
        }

        return false;
    }

    private static double Scatter(double[] values, double median) => 1.4826 * Quantiles.Median<double>([.. values.Select(value => Math.Abs(value - median))]);
}
