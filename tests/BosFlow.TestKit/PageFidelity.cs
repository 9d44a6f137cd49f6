namespace BosFlow.TestKit;

/// <summary>How well the discs of a rendered page agree with those that it should show.</summary>
public sealed record PageFidelity
{
    private const double MillimetresPerInch = 25.4;

    /// <summary>Diameters found, mm; two discs that touch count as one.</summary>
    public required IReadOnlyList<double> DiametersMillimetres { get; init; }

    /// <summary>Relative errors of these diameters, 1.</summary>
    public required IReadOnlyList<double> DiameterErrors { get; init; }

    /// <summary>Largest distance of a centre from where it should be, mm.</summary>
    public required double WorstPlaceErrorMillimetres { get; init; }

    /// <summary>Number of discs that were found.</summary>
    public int Found => DiameterErrors.Count;

    /// <summary>Median of the diameters found, mm; NaN for none.</summary>
    public double MedianDiameterMillimetres => Middle(DiametersMillimetres);

    /// <summary>Median of the relative errors of the diameters, 1; NaN for none.</summary>
    public double MedianDiameterError => Middle(DiameterErrors);

    /// <summary>Largest relative error of a diameter, 1; NaN for none.</summary>
    public double WorstDiameterError => DiameterErrors.Count == 0 ? double.NaN : DiameterErrors.Max(Math.Abs);

    /// <summary>Several pages, or parts of one, together.</summary>
    /// <param name="parts">At least one.</param>
    public static PageFidelity Together(IReadOnlyList<PageFidelity> parts) => new()
    {
        DiametersMillimetres = [.. parts.SelectMany(part => part.DiametersMillimetres)],
        DiameterErrors = [.. parts.SelectMany(part => part.DiameterErrors)],
        WorstPlaceErrorMillimetres = parts.Max(part => part.WorstPlaceErrorMillimetres),
    };

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

        return new PageFidelity { DiametersMillimetres = diameters, DiameterErrors = errors, WorstPlaceErrorMillimetres = worstPlace };
    }

    private static double Middle(IReadOnlyList<double> values) => values.Count == 0 ? double.NaN : values.Order().ElementAt(values.Count / 2);
}
