using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Compares what was measured with what a print must keep.</summary>
internal static class BoardFindings
{
    private const double Overexposed = 0.985;
    private const double NotAScan = 2;
    private const double Decided = 2;

    public static IReadOnlyList<CheckFinding> Of(BoardCheck check, Board board, BoardCheckSettings settings, GrayImage photo, IReadOnlyList<PlanePoint> corners) =>
    [
        Flatness(check, settings, photo, corners),
        Contrast(check),
        .. check.IsSingle ? check.Sizes.Where(size => double.IsFinite(size.DiameterMetres)).Select(Diameter) : [FromCoverage(check, board)],
        Dots(check),
        .. Scale(check.Scale),
        Ratio(check),
    ];

    private static CheckFinding Flatness(BoardCheck check, BoardCheckSettings settings, GrayImage photo, IReadOnlyList<PlanePoint> corners)
    {
        double limit = BoardCheckLimits.Flatness * Math.Max(photo.Width, photo.Height);
        double rms = check.Plane.RmsPixels;
        string miss = FormattableString.Invariant($"the fiducials' corners lie {rms:0.00} px (RMS, {check.Plane.RmsMetres * 1e3:0.000} mm) from a flat board");
        if (settings.ScanDpi is not null)
        {
            PlaneFitResult? asPhoto = PlaneFit.Fit(PlaneModel.Photo, corners, photo.Width, photo.Height);
            bool isPhoto = asPhoto is not null && rms > (NotAScan * asPhoto.RmsPixels) + 0.3;
            if (isPhoto)
                return new CheckFinding(CheckState.Bad, "Scan", $"{miss} seen without perspective, and {FormattableString.Invariant($"{asPhoto!.RmsPixels:0.00}")} px with it: this is a photo, not a scan, so leave out --scan-dpi.");
        }

        return rms <= limit
            ? new CheckFinding(CheckState.Good, "Flatness", FormattableString.Invariant($"{miss}; the limit is {limit:0.0} px."))
            : new CheckFinding(CheckState.Bad, "Flatness", FormattableString.Invariant($"{miss}; the limit is {limit:0.0} px: lay the board flat, and take the photo from farther away with a longer lens, which bends less."));
    }

    private static CheckFinding Contrast(BoardCheck check)
    {
        string levels = FormattableString.Invariant($"paper {check.PaperLevel * 100:0} %, ink {check.InkLevel * 100:0} % of full scale, difference {check.Contrast:0.00}");
        if (check.PaperLevel >= Overexposed)
            return new CheckFinding(CheckState.Open, "Contrast", $"{levels}: the paper is at the limit of the picture, which can make dots look too small; expose less and take it again.");
        return check.Contrast >= BoardCheckLimits.Contrast
            ? new CheckFinding(CheckState.Good, "Contrast", FormattableString.Invariant($"{levels}; at least {BoardCheckLimits.Contrast:0.0} is wanted."))
            : new CheckFinding(CheckState.Bad, "Contrast", FormattableString.Invariant($"{levels}; at least {BoardCheckLimits.Contrast:0.0} is wanted: print darker on whiter, matt paper, or light the board without glare."));
    }

    private static CheckFinding Diameter(DotSizeCheck size)
    {
        double deviation = (size.DiameterMetres / size.NominalMetres) - 1;
        string value = FormattableString.Invariant($"dots measure {size.DiameterMetres * 1e3:0.000} \u00b1 {size.DiameterSigma * 1e3:0.000} mm where {size.NominalMetres * 1e3:0.###} mm were asked for ({deviation * 100:+0.0;-0.0} %)");
        return Judge("Dots' size", value, deviation, size.DiameterSigma / size.NominalMetres, BoardCheckLimits.Diameter, "print again with the recommended --ink-gain-mm.", "go nearer for larger dots in the photo.");
    }

    private static CheckFinding FromCoverage(BoardCheck check, Board board)
    {
        double smallest = check.Sizes.Min(size => size.ImagePixels);
        string coarse = FormattableString.Invariant($"a dot is {smallest:0.0} px wide in the photo, below the {BoardCheckLimits.SingleDotPixels:0} px that single dots need");
        if (board.Settings.Tones == BoardTones.TwoTone || !double.IsFinite(check.InkGainMetres))
            return new CheckFinding(CheckState.Open, "Dots' size", $"{coarse}: not measured; go nearer and take a part of the board.");
        double excess = check.InkGainMetres - board.Settings.InkGainMetres;
        double nominal = board.Settings.Sizes.Min(size => size.DiameterMetres);
        string value = FormattableString.Invariant($"{coarse}; the covered area makes dots {excess * 1e3:+0.000;-0.000} \u00b1 {check.InkGainSigma * 1e3:0.000} mm wider than asked for");
        return Judge("Dots' size", value, excess / nominal, check.InkGainSigma / nominal, BoardCheckLimits.Diameter, "print again with the recommended --ink-gain-mm.", "go nearer and take a part of the board.");
    }

    private static CheckFinding Dots(BoardCheck check)
    {
        DotSizeCheck[] counted = [.. check.Sizes.Where(size => size.Found is not null)];
        int expected = counted.Sum(size => size.Expected);
        if (expected == 0)
            return new CheckFinding(CheckState.Open, "Dots there", "the photo is too coarse to look for single dots; go nearer and take a part of the board.");
        int found = counted.Sum(size => size.Found ?? 0);
        double share = (double)found / expected;
        string value = FormattableString.Invariant($"{found} of {expected} dots are there ({share * 100:0.0} %)");
        return share >= BoardCheckLimits.DotsFound
            ? new CheckFinding(CheckState.Good, "Dots there", FormattableString.Invariant($"{value}; at least {BoardCheckLimits.DotsFound * 100:0} % are wanted."))
            : new CheckFinding(CheckState.Bad, "Dots there", FormattableString.Invariant($"{value}; at least {BoardCheckLimits.DotsFound * 100:0} % are wanted: look at the picture of the check for where they are missing (glare, dirt, an empty nozzle)."));
    }

    private static IEnumerable<CheckFinding> Scale(PrintScaleCheck scale)
    {
        if (scale.X is not { } x || scale.Y is not { } y)
        {
            yield return new CheckFinding(
                CheckState.Open, "Scale", "not measured: a photo has no millimetres of its own; lay a steel rule along both rulers and give what it reads, --ruler-x-mm and --ruler-y-mm, or scan the board, --scan-dpi.");
            yield break;
        }

        foreach ((string axis, double value, double sigma) in new[] { ("x", x, scale.SigmaX), ("y", y, scale.SigmaY) })
        {
            yield return Judge(
                $"Scale in {axis}", FormattableString.Invariant($"printed at {value * 100:0.00} \u00b1 {sigma * 100:0.00} %"), value - 1, sigma, BoardCheckLimits.Scale,
                "print at 100 %, without fitting to the page.", "read a longer ruler, or scan the board.");
        }
    }

    private static CheckFinding Ratio(BoardCheck check)
    {
        PrintScaleCheck scale = check.Scale;
        string value = FormattableString.Invariant($"x is stretched {(scale.Ratio - 1) * 100:+0.00;-0.00} \u00b1 {scale.RatioSigma * 100:0.00} % against y");
        return Judge(
            "Stretch x : y", value, scale.Ratio - 1, scale.RatioSigma, BoardCheckLimits.Anisotropy,
            "turn off scaling in the printer's settings, or use another printer.",
            "seen straight on, a tilt looks like a stretch: photograph straight on from far away, scan the board, or read both rulers.");
    }

    // Bad beyond its limit by more than its own doubt; open where the doubt is as large as the limit.
    private static CheckFinding Judge(string subject, string value, double deviation, double sigma, double limit, string cure, string better)
    {
        string within = FormattableString.Invariant($"the limit is {limit * 100:0.0} %");
        double size = Math.Abs(deviation);
        if (size > limit && size > Decided * sigma)
            return new CheckFinding(CheckState.Bad, subject, $"{value}; {within}: {cure}");
        if (size <= limit && sigma <= limit)
            return new CheckFinding(CheckState.Good, subject, $"{value}; {within}.");
        return new CheckFinding(CheckState.Open, subject, $"{value}; {within}, which this photo cannot decide: {better}");
    }
}
