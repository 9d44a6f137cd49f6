using BosFlow.Footage;

namespace BosFlow.Displacement;

/// <summary>How alike the grey levels of a tile of a picture are at some distance from each other.</summary>
/// <remarks>
/// The covariance of grey levels r px apart of dots with a Gaussian image of variance s^2 is C(r) = C0 exp(-r^2 / (4 s^2)); noise that differs from pixel to pixel is in C(0) alone. Hence
/// C0 = C(1) (C(1) / C(2))^(1/3), and the noise's variance is C(0) - C0 (derived).
/// </remarks>
internal sealed class TileCovariance
{
    /// <summary>Side of a tile, px.</summary>
    public const int Size = 64;

    /// <summary>e^-2 diameter over the distance of half covariance: 4 s over 2 s sqrt(ln 2).</summary>
    public const double DiameterOverHalf = 2.402;

    private const int LongestLag = 24;
    private readonly float[] levels = new float[Size * Size];

    /// <summary>Takes a tile.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    public TileCovariance(GrayImage image, int left, int top)
    {
        double sum = 0;
        for (int row = 0; row < Size; row++)
        {
            Span<float> target = levels.AsSpan(row * Size, Size);
            ReadOnlySpan<float> line = image.Levels(((top + row) * image.Width) + left, Size, target);
            if (!image.HasCodes)
                line.CopyTo(target);
            for (int i = 0; i < line.Length; i++)
                sum += line[i];
        }

        double mean = sum / levels.Length;
        IsComplete = double.IsFinite(mean);
        for (int i = 0; i < levels.Length; i++)
            levels[i] -= (float)mean;
    }

    /// <summary>Whether every pixel has a level; without, nothing else is a number.</summary>
    public bool IsComplete { get; }

    /// <summary>Grey levels less their mean.</summary>
    public float[] Levels => levels;

    /// <summary>Mean product of levels dx columns and dy rows apart, dx 0 or more.</summary>
    public double Covariance(int dx, int dy)
    {
        double sum = 0;
        int lastX = Size - dx;
        for (int y = Math.Max(0, -dy); y < Size - Math.Max(0, dy); y++)
        {
            ReadOnlySpan<float> here = levels.AsSpan(y * Size, lastX);
            ReadOnlySpan<float> there = levels.AsSpan(((y + dy) * Size) + dx, lastX);
            float line = 0;
            for (int i = 0; i < here.Length; i++)
                line += here[i] * there[i];
            sum += line;
        }

        return sum / (lastX * (Size - Math.Abs(dy)));
    }

    /// <summary>Variance of the levels without noise that differs from pixel to pixel.</summary>
    public double PatternVariance()
    {
        double all = Covariance(0, 0);
        return Math.Min(all, (Extrapolated(Covariance(1, 0), Covariance(2, 0), all) + Extrapolated(Covariance(0, 1), Covariance(0, 2), all)) / 2);
    }

    private static double Extrapolated(double one, double two, double all) => two > 0.05 * all && one > two ? Math.Min(all, one * Math.Cbrt(one / two)) : all;

    /// <summary>Number of steps (dx, dy) over which the covariance falls to half of the pattern's variance.</summary>
    public double HalfDistance(int dx, int dy)
    {
        double pattern = PatternVariance(), before = pattern;
        for (int lag = 1; lag <= LongestLag; lag++)
        {
            double here = Covariance(lag * dx, lag * dy);
            if (here < pattern / 2)
            {
                double low = Math.Max(here, 1e-3 * pattern);
                // ln C falls as the square of the distance.
                double from = (lag - 1.0) * (lag - 1), to = (double)lag * lag;
                return Math.Sqrt(from + ((to - from) * Math.Log(before / (pattern / 2)) / Math.Log(before / low)));
            }

            before = here;
        }

        return LongestLag;
    }
}
