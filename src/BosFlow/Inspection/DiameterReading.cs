using BosFlow.Numerics.Robust;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Diameters from areas: dot by dot where the photo resolves them, else from the covered area as a whole.</summary>
internal sealed record DiameterReading
{
    /// <summary>A dot of less than this share of its area is not there.</summary>
    private const double LeastArea = 0.3;
    private const double MedianEfficiency = 1.2533;
    private const double MedianToSigma = 1.4826;

    // Tails of the blur that reach the places between the dots, and what the cells' cut leaves: from the studies on exact photos.
    private const double BlurRemainder = 0.002;

    private const int LeastDots = 20;

    public required IReadOnlyList<DotSizeCheck> Sizes { get; init; }

    public required double NominalCoverage { get; init; }

    public required double Coverage { get; init; }

    public required double CoverageSigma { get; init; }

    public required double Gain { get; init; }

    public required double GainSigma { get; init; }

    public required bool IsSingle { get; init; }

    public required IReadOnlyList<CheckedDot> Dots { get; init; }

    /// <summary>Reads diameters, in the board's own metres: as the paper would measure had the printer kept the scale.</summary>
    public static DiameterReading Of(Board board, LightPicture picture, SeenBoard seen, DotCells cells, BoardLight light, double scaleSigma)
    {
        var areas = DotAreas.Of(board, picture, seen, cells, light);
        double contrast = seen.Dots.Count == 0 ? 1 : 1 - light.DotRatio(board.Dots[seen.Dots[0].Index].IsLight);
        // Relative errors of an area: of the ground over the cell, of black and white, of the scale of the map.
        double ground = (light.GroundSigma / light.Ground(picture.Width / 2.0, picture.Height / 2.0) / Math.Abs(contrast)) + BlurRemainder;
        double ratio = light.RatioSigma / Math.Abs(contrast);
        bool resolved = light.Tiles > 0;

        var sizes = new List<DotSizeCheck>();
        var gains = new List<(double Gain, double Sigma, int Count)>();
        bool[] isFound = new bool[seen.Dots.Count];
        for (int size = 0; size < board.Settings.Sizes.Count; size++)
        {
            int[] ofSize = [.. Enumerable.Range(0, seen.Dots.Count).Where(i => board.Dots[seen.Dots[i].Index].Size == size)];
            sizes.Add(SizeOf(board, size, seen, areas, ofSize, isFound, ground, ratio, scaleSigma, resolved));
            double drawn = sizes[^1].NominalMetres - board.Settings.InkGainMetres;
            if (double.IsFinite(sizes[^1].DiameterMetres))
                gains.Add((sizes[^1].DiameterMetres - drawn, sizes[^1].DiameterSigma, ofSize.Length));
        }

        (double covered, double nominal, double whole) = Areas(board, picture, seen, areas, light, resolved);
        double coverage = covered / whole;
        double meanCell = seen.Dots.Count == 0 ? 1 : areas.CellAreas.Sum() / Math.Max(1, areas.Areas.Sum());
        double coverageSigma = coverage * Math.Sqrt(Square(ground * (resolved ? meanCell : 1 / coverage)) + Square(ratio));
        bool isSingle = gains.Count > 0;
        (double gain, double gainSigma) = isSingle ? Mean(gains) : FromArea(board, seen, covered / nominal, coverageSigma / coverage);
        return new DiameterReading
        {
            Sizes = sizes,
            NominalCoverage = nominal / whole,
            Coverage = coverage,
            CoverageSigma = coverageSigma,
            Gain = gain,
            GainSigma = gainSigma,
            IsSingle = isSingle,
            Dots = [.. seen.Dots.Select((dot, i) => new CheckedDot((float)dot.X, (float)dot.Y, (float)dot.Radius, isFound[i]))],
        };
    }

    private static DotSizeCheck SizeOf(
        Board board, int size, SeenBoard seen, DotAreas areas, int[] ofSize, bool[] isFound, double ground, double ratio, double scaleSigma, bool resolved)
    {
        double nominal = board.Settings.Sizes[size].DiameterMetres;
        double image = ofSize.Length == 0 ? double.NaN : ofSize.Average(i => 2 * seen.Dots[i].Radius);
        foreach (int i in ofSize)
            isFound[i] = areas.Areas[i] > LeastArea * Math.PI * seen.Dots[i].Radius * seen.Dots[i].Radius;
        int[] single = [.. ofSize.Where(i => isFound[i] && !areas.Mixed[i])];
        double median = double.NaN;
        double scatter = double.NaN;
        double sigma = double.NaN;
        if (resolved && image >= BoardCheckLimits.SingleDotPixels && single.Length >= LeastDots)
        {
            double[] diameters = [.. single.Select(i => 2 * Math.Sqrt(areas.Areas[i] / (Math.PI * seen.Dots[i].AreaScale)))];
            median = Quantiles.Median<double>(diameters);
            scatter = MedianToSigma * Quantiles.Median<double>([.. diameters.Select(diameter => Math.Abs(diameter - median))]);
            double cells = single.Sum(i => areas.CellAreas[i]) / single.Sum(i => areas.Areas[i]);
            // A diameter goes with the root of an area, and with the scale itself.
            double systematic = Math.Sqrt((Square(ground * cells) + Square(ratio)) / 4 + Square(scaleSigma));
            sigma = Math.Sqrt(Square(MedianEfficiency * scatter) / single.Length + Square(systematic * median));
        }

        return new DotSizeCheck
        {
            NominalMetres = nominal,
            ImagePixels = image,
            Expected = ofSize.Length,
            Found = resolved && image >= BoardCheckLimits.CountedDotPixels ? ofSize.Count(i => isFound[i]) : null,
            DiameterMetres = median,
            DiameterSigma = sigma,
            DiameterScatter = scatter,
        };
    }

    // All in px2: covered area, what the description says of the same area, and the area itself.
    private static (double Covered, double Nominal, double Whole) Areas(
        Board board, LightPicture picture, SeenBoard seen, DotAreas areas, BoardLight light, bool resolved)
    {
        double whole = seen.Pattern.Count(pixel => pixel);
        double nominal = seen.Dots.Sum(dot => Math.PI * dot.Radius * dot.Radius);
        if (resolved)
            return (areas.Areas.Sum(), nominal, whole);
        bool isLight = board.Settings.Tones == BoardTones.Inverted;
        return (DotAreas.Total(picture, seen, light, isLight).Covered, nominal, whole);
    }

    // One gain for all: sum of n_i pi/4 (d_i + g)^2 is the covered area.
    private static (double Gain, double Sigma) FromArea(Board board, SeenBoard seen, double ratio, double relativeSigma)
    {
        if (seen.Dots.Count == 0 || !double.IsFinite(ratio))
            return (double.NaN, double.NaN);
        double[] nominal = [.. seen.Dots.Select(dot => board.Settings.Sizes[board.Dots[dot.Index].Size].DiameterMetres)];
        double mean = nominal.Average();
        double square = nominal.Average(d => d * d);
        double root = Math.Sqrt(Math.Max(0, (mean * mean) - square + (ratio * square)));
        double excess = root - mean;
        return (excess + board.Settings.InkGainMetres, relativeSigma * ratio * square / (2 * root));
    }

    private static (double Gain, double Sigma) Mean(List<(double Gain, double Sigma, int Count)> gains)
    {
        double total = gains.Sum(one => one.Count);
        return (gains.Sum(one => one.Count * one.Gain) / total, gains.Sum(one => one.Count * one.Sigma) / total);
    }

    private static double Square(double value) => value * value;
}
