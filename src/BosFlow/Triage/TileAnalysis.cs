using BosFlow.Displacement;
using BosFlow.Footage;

namespace BosFlow.Triage;

/// <summary>Reads size, contrast and number of dots out of a tile.</summary>
/// <remarks>
/// The covariance of grey levels r px apart of dots with a Gaussian image of variance s^2 is C(r) = C0 exp(-r^2 / (4 s^2)); noise that differs from pixel to pixel is in C(0) alone. Hence
/// s^2 = 3 / (4 ln(C(1) / C(2))), C0 = C(1) (C(1) / C(2))^(1/3), and the noise's variance is C(0) - C0 (derived). The e^-2 diameter is 2.40 times the distance at which C falls to C0 / 2: exact
/// for Gaussian dots, 3 % low for sharp discs (derived). Along a direction the inverse of s^2 is a quadratic form, so that four directions give its two axes.
/// </remarks>
internal sealed class TileAnalysis(GrayImage image, int left, int top)
{
    /// <summary>Side of a tile, px.</summary>
    public const int Size = TileCovariance.Size;

    // A pattern shares a tenth of its variance with the neighbour and varies by a hundredth of white; judgement, from tiles of noise alone and of dots of 1 px.
    private const double LeastShared = 0.1;
    private const double LeastTexture = 0.01;

    private readonly TileCovariance tile = new(image, left, top);

    public TileReading Read(double black, double white)
    {
        double x = left + ((Size - 1) / 2.0), y = top + ((Size - 1) / 2.0);
        if (!tile.IsComplete)
            return None(x, y, double.NaN);
        float[] sorted = [.. tile.Levels];
        Array.Sort(sorted);
        double range = white - black;
        // Wide enough to reach the tops of dots that cover a hundredth of the tile.
        double contrast = (sorted[^(sorted.Length / 200)] - sorted[sorted.Length / 200]) / range;
        double all = tile.Covariance(0, 0);
        double sharedX = tile.Covariance(1, 0), sharedY = tile.Covariance(0, 1);
        if (!HasPattern(all, sharedX + sharedY, range))
            return None(x, y, contrast);
        double varianceX = Variance(1, 0, all), varianceY = Variance(0, 1, all);
        (double longest, double shortest) = Axes(varianceX, varianceY, Variance(1, 1, all), Variance(1, -1, all));
        double pattern = tile.PatternVariance();
        double noise = Math.Sqrt(Math.Max(0, all - pattern));
        double diameter = TileCovariance.DiameterOverHalf * (tile.HalfDistance(1, 0) + tile.HalfDistance(0, 1)) / 2;
        double dots = DotCount.Of(tile.Levels, Size, sorted, 0, noise) / (double)sorted.Length;
        return new TileReading(x, y, diameter, longest, shortest, varianceX, varianceY, contrast, dots);
    }

    /// <summary>e^-2 diameter of a dot along the longest of four directions, px; NaN where the tile shows no pattern.</summary>
    /// <remarks>By the distance of half covariance: over a long smear the covariance falls as a triangle, and its first two lags no longer tell the length.</remarks>
    /// <param name="range">From black to white, digital numbers.</param>
    public double LongestDiameter(double range)
    {
        if (!tile.IsComplete)
            return double.NaN;
        double all = tile.Covariance(0, 0);
        double sharedX = tile.Covariance(1, 0), sharedY = tile.Covariance(0, 1);
        if (!HasPattern(all, sharedX + sharedY, range))
            return double.NaN;
        double straight = Math.Max(tile.HalfDistance(1, 0), tile.HalfDistance(0, 1));
        double oblique = Math.Sqrt(2) * Math.Max(tile.HalfDistance(1, 1), tile.HalfDistance(1, -1));
        return TileCovariance.DiameterOverHalf * Math.Max(straight, oblique);
    }

    private static bool HasPattern(double all, double shared, double range) => shared > 2 * LeastShared * all && Math.Sqrt(all) >= LeastTexture * range;

    private static TileReading None(double x, double y, double contrast) =>
        new(x, y, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, contrast, double.NaN);

    // Where the second covariance has vanished (dots below about 1.5 px) the first and the whole must do, noise and all.
    private double Variance(int dx, int dy, double all)
    {
        double one = tile.Covariance(dx, dy), two = tile.Covariance(2 * dx, 2 * dy);
        double squared = (dx * dx) + (dy * dy);
        if (two > 0.05 * all && one > two)
            return 3 * squared / (4 * Math.Log(one / two));
        return one > 0 && all > one ? squared / (4 * Math.Log(all / one)) : double.NaN;
    }

    private static (double Longest, double Shortest) Axes(double x, double y, double falling, double rising)
    {
        double a = 1 / x, b = 1 / y, mixed = ((1 / falling) - (1 / rising)) / 2;
        double middle = (a + b) / 2;
        double radius = Math.Sqrt(((a - b) * (a - b) / 4) + (double.IsFinite(mixed) ? mixed * mixed : 0));
        return (1 / Math.Max(middle - radius, 1e-3), 1 / (middle + radius));
    }
}
