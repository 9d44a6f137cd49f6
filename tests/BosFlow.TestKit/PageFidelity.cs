namespace BosFlow.TestKit;

/// <summary>How well the discs of a rendered page agree with those that it should show.</summary>
public sealed record PageFidelity
{
    private const double MillimetresPerInch = 25.4;

    /// <summary>Number of discs that were found; two that touch count as one.</summary>
    public required int Found { get; init; }

    /// <summary>Median of the diameters found, mm.</summary>
    public required double MedianDiameterMillimetres { get; init; }

    /// <summary>Median of the relative errors of the diameters, 1.</summary>
    public required double MedianDiameterError { get; init; }

    /// <summary>Largest relative error of a diameter, 1.</summary>
    public required double WorstDiameterError { get; init; }

    /// <summary>Largest distance of a centre from where it should be, mm.</summary>
    public required double WorstPlaceErrorMillimetres { get; init; }

    /// <summary>
    /// Ink of the grey levels of poppler: its renderer covers 4 x 4 points a pixel and draws k covered ones with (k / 16) to the power of 1.5 of the ink. Found by
    /// the 17 levels that its pictures have: 255, 251, 244, 234, 223, 210 ... are 255 (1 - (k / 16)^1.5) rounded, to the last.
    /// </summary>
    /// <param name="ground">Grey level of the ground.</param>
    /// <param name="disc">Grey level of the discs.</param>
    public static double[] Poppler(byte ground, byte disc) => DiscFinder.Scale(ground, disc, 1.5);

    /// <summary>Finds the discs of a page.</summary>
    /// <param name="page">The page, or a part of it.</param>
    /// <param name="ink">Ink of the grey levels, see <see cref="DiscFinder"/>.</param>
    /// <param name="dpi">Pixels in an inch.</param>
    /// <param name="expected">Discs that lie whole in the page.</param>
    /// <param name="leftPixels">Pixels of the whole page to the left of this part.</param>
    /// <param name="topPixels">Pixels of the whole page above this part.</param>
    public static PageFidelity Measure(GreyPage page, double[] ink, double dpi, IReadOnlyList<ExpectedDisc> expected, int leftPixels = 0, int topPixels = 0)
    {
        ArgumentNullException.ThrowIfNull(expected);
        double scale = dpi / MillimetresPerInch;
        var finder = new DiscFinder(page, ink);
        List<double> diameters = [];
        List<double> errors = [];
        double worstPlace = 0;
        foreach (ExpectedDisc disc in expected)
        {
            double x = (disc.X * scale) - leftPixels;
            double y = (disc.Y * scale) - topPixels;
            if (finder.At(x, y) is not { } found)
                continue;
            diameters.Add(found.Diameter / scale);
            errors.Add((found.Diameter / scale / disc.Diameter) - 1);
            worstPlace = Math.Max(worstPlace, Math.Sqrt(((found.X - x) * (found.X - x)) + ((found.Y - y) * (found.Y - y))) / scale);
        }

        return new PageFidelity
        {
            Found = errors.Count,
            MedianDiameterMillimetres = Middle(diameters),
            MedianDiameterError = Middle(errors),
            WorstDiameterError = errors.Count == 0 ? double.NaN : errors.Max(Math.Abs),
            WorstPlaceErrorMillimetres = worstPlace,
        };
    }

    private static double Middle(List<double> values) => values.Count == 0 ? double.NaN : values.Order().ElementAt(values.Count / 2);
}
