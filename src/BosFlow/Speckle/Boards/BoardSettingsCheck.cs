namespace BosFlow.Speckle.Boards;

/// <summary>Everything that makes a board impossible, each in one sentence with its limit.</summary>
internal static class BoardSettingsCheck
{
    /// <summary>Largest number of sizes on one board.</summary>
    public const int MostSizes = 8;

    // Discs thrown at random jam at 0.547 of the area (J. Feder 1980, J. Theor. Biol. 87:237, from memory); close to it nearly every throw is in vain.
    private const double LargestPacking = 0.5;

    private const double LeastSide = 0.010;
    private const double LargestSide = 50;
    private const double LeastDiameter = 20e-6;

    // A description states diameters to 0.1 um: sizes must be told apart by it.
    private const double LeastStep = 1e-6;

    public static IReadOnlyList<string> Problems(BoardSettings settings)
    {
        List<string> problems = [.. Plain(settings)];
        return problems.Count > 0 ? problems : [.. Together(settings)];
    }

    public static string NoRoomLeft(BoardSettings settings, double diameter) => FormattableString.Invariant(
        $"No room was left for dots of {Mm(diameter)} mm at a coverage of {settings.Coverage} with gaps of {Mm(settings.GapMetres)} mm; make the coverage or the gap smaller.");

    private static IEnumerable<string> Plain(BoardSettings settings)
    {
        if (!(settings.WidthMetres is >= LeastSide and <= LargestSide && settings.HeightMetres is >= LeastSide and <= LargestSide))
            yield return FormattableString.Invariant($"The board is {Mm(settings.WidthMetres)} mm x {Mm(settings.HeightMetres)} mm; each side must be {Mm(LeastSide)} mm to {Mm(LargestSide)} mm.");
        foreach (string problem in SizeProblems(settings.Sizes))
            yield return problem;
        if (!(settings.Coverage is > 0 and < 1))
            yield return FormattableString.Invariant($"The coverage is {settings.Coverage}; it must be greater than 0 and smaller than 1.");
        if (settings.LeastGapMetres is { } gap && !(gap >= 0 && double.IsFinite(gap)))
            yield return FormattableString.Invariant($"The least gap is {Mm(gap)} mm; it must be 0 mm or more.");
        if (settings.FiducialSideMetres is { } side && !(side > 0 && double.IsFinite(side)))
            yield return FormattableString.Invariant($"The fiducials' side is {Mm(side)} mm; it must be greater than 0 mm.");
        if (!double.IsFinite(settings.InkGainMetres))
            yield return "The ink's gain is not a number; give it in mm, 0 for none.";
        if (!(settings.LongestRulerMetres is >= 0 and <= LargestSide))
            yield return FormattableString.Invariant($"The longest ruler is {Mm(settings.LongestRulerMetres)} mm; it must be 0 mm (none) to {Mm(LargestSide)} mm.");
        if (!Enum.IsDefined(settings.Tones))
            yield return FormattableString.Invariant($"The tones {settings.Tones} are not known; they are dark, inverted or two-tone.");
    }

    private static IEnumerable<string> SizeProblems(IReadOnlyList<DotSize> sizes)
    {
        if (sizes.Count is 0 or > MostSizes)
        {
            yield return FormattableString.Invariant($"The board has {sizes.Count} sizes of dots; it must have 1 to {MostSizes}.");
            yield break;
        }

        for (int i = 0; i < sizes.Count; i++)
        {
            if (!(sizes[i].DiameterMetres >= LeastDiameter && double.IsFinite(sizes[i].DiameterMetres)))
                yield return FormattableString.Invariant($"The dot diameter is {Mm(sizes[i].DiameterMetres)} mm; it must be at least {Mm(LeastDiameter)} mm.");
            if (!(sizes[i].Share is > 0 and <= 1))
                yield return FormattableString.Invariant($"The share of the dots of {Mm(sizes[i].DiameterMetres)} mm is {sizes[i].Share}; it must be greater than 0 and at most 1.");
            if (i > 0 && sizes[i].DiameterMetres > sizes[i - 1].DiameterMetres - LeastStep)
                yield return FormattableString.Invariant($"The dot sizes {Mm(sizes[i - 1].DiameterMetres)} mm and {Mm(sizes[i].DiameterMetres)} mm must differ by at least {Mm(LeastStep)} mm and come largest first.");
        }

        double sum = sizes.Sum(size => size.Share);
        if (!(Math.Abs(sum - 1) <= 1e-6))
            yield return FormattableString.Invariant($"The shares of the dot sizes sum to {sum:0.######}; they must sum to 1.");
    }

    private static IEnumerable<string> Together(BoardSettings settings)
    {
        double smallest = settings.Sizes[^1].DiameterMetres;
        BoardRectangle pattern = BoardLayout.PatternOf(settings);
        double room = Math.Min(pattern.Width, pattern.Height);
        if (!(settings.InkGainMetres < smallest && -settings.InkGainMetres <= settings.GapMetres))
            yield return FormattableString.Invariant($"The ink's gain is {Mm(settings.InkGainMetres)} mm; it must be smaller than the smallest dot of {Mm(smallest)} mm and, where negative, not beyond the gap of {Mm(settings.GapMetres)} mm.");
        if (settings.Sizes[0].DiameterMetres > room)
        {
            yield return FormattableString.Invariant($"Dots of {Mm(settings.Sizes[0].DiameterMetres)} mm are larger than the pattern of {Mm(pattern.Width)} mm x {Mm(pattern.Height)} mm; make the dots smaller or the board larger.");
            yield break;
        }

        double side = settings.FiducialMetres;
        double largest = FiducialRing.LargestSide(pattern);
        if (settings.WithFiducials && side > largest)
        {
            yield return FormattableString.Invariant($"Fiducials of {Mm(side)} mm do not fit a pattern of {Mm(pattern.Width)} mm x {Mm(pattern.Height)} mm; the largest are {Down(largest * 1000)} mm: give a smaller side, or none.");
            yield break;
        }

        foreach (string problem in DotProblems(settings))
            yield return problem;
    }

    private static IEnumerable<string> DotProblems(BoardSettings settings)
    {
        BoardLayout layout = BoardLayout.Of(settings);
        double[] counts = [.. DotCounts.Of(settings, layout.FreeArea)];
        if (counts.Sum() > BoardSettings.MostDots)
            yield return FormattableString.Invariant($"The board would need {counts.Sum():0} dots; at most {BoardSettings.MostDots} are drawn: take larger dots, a smaller board or less coverage.");
        int none = Array.FindIndex(counts, count => count < 1);
        if (none >= 0)
            yield return FormattableString.Invariant($"Not one dot of {Mm(settings.Sizes[none].DiameterMetres)} mm fits the coverage of {settings.Coverage}; make the dots smaller or the board larger.");
        double packing = Packing(settings, layout);
        if (packing > LargestPacking)
            yield return FormattableString.Invariant($"A coverage of {settings.Coverage} does not fit with gaps of {Mm(settings.GapMetres)} mm; the largest coverage for that gap is {Down(settings.Coverage * LargestPacking / packing)}.");
    }

    // Share of the area that discs grown by half a gap would take where their centres may be.
    private static double Packing(BoardSettings settings, BoardLayout layout)
    {
        var free = new FreeArea(layout);
        double packing = 0;
        foreach (DotSize size in settings.Sizes)
        {
            double grown = 1 + (settings.GapMetres / size.DiameterMetres);
            double centres = free.CentreArea(size.DiameterMetres / 2);
            packing += settings.Coverage * size.Share * grown * grown * layout.FreeArea / Math.Max(centres, double.Epsilon);
        }

        return packing;
    }

    private static string Mm(double metres) => (metres * 1000).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture);

    // Rounded down: what the sentence names must pass.
    private static string Down(double value) => (Math.Floor(value * 1000) / 1000).ToString("0.###", System.Globalization.CultureInfo.InvariantCulture);
}
