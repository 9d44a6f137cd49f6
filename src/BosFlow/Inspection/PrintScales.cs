using BosFlow.Camera;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>The printer's scale from steel rule, scan or photo.</summary>
internal static class PrintScales
{
    // Common practice, no source: a steel rule with marks every 0.5 mm is read to 0.2 mm (one sigma, both ends together) ...
    private const double RulerSigma = 0.2e-3;

    // ... and a flat-bed scanner keeps its own scale to 0.2 % in each direction.
    private const double ScannerSigma = 0.002;

    private const double MetresPerInch = 0.0254;

    public static PrintScaleCheck Of(Board board, PlaneFitResult plane, BoardCheckSettings settings)
    {
        if (settings.RulerXMetres is not null || settings.RulerYMetres is not null)
            return Ruled(board, plane, settings);
        return settings.ScanDpi is { } dpi ? Scanned(plane, dpi) : new PrintScaleCheck
        {
            Ratio = plane.Ratio,
            RatioSigma = plane.RatioSigma,
            Basis = "the fiducials' places in the photo: only the ratio, for a photo has no millimetres of its own",
        };
    }

    private static PrintScaleCheck Ruled(Board board, PlaneFitResult plane, BoardCheckSettings settings)
    {
        (double? x, double sigmaX) = Read(board, settings.RulerXMetres, isVertical: false);
        (double? y, double sigmaY) = Read(board, settings.RulerYMetres, isVertical: true);
        if (x is { } readX && y is { } readY)
        {
            double ratio = readX / readY;
            return new PrintScaleCheck
            {
                X = x,
                SigmaX = sigmaX,
                Y = y,
                SigmaY = sigmaY,
                Ratio = ratio,
                RatioSigma = ratio * double.Hypot(sigmaX / readX, sigmaY / readY),
                Basis = "a steel rule along both rulers, read to 0.2 mm",
            };
        }

        // The other direction follows by the photo's ratio.
        double other = x is { } known ? known / plane.Ratio : y!.Value * plane.Ratio;
        double otherSigma = other * double.Hypot((x is null ? sigmaY : sigmaX) / (x ?? y!.Value), plane.RatioSigma / plane.Ratio);
        return new PrintScaleCheck
        {
            X = x ?? other,
            SigmaX = x is null ? otherSigma : sigmaX,
            Y = y ?? other,
            SigmaY = y is null ? otherSigma : sigmaY,
            Ratio = plane.Ratio,
            RatioSigma = plane.RatioSigma,
            Basis = "a steel rule along one ruler, read to 0.2 mm, and the photo's ratio for the other direction",
        };
    }

    private static (double? Scale, double Sigma) Read(Board board, double? reading, bool isVertical)
    {
        if (reading is not { } metres)
            return (null, double.NaN);
        BoardRuler ruler = board.Rulers.FirstOrDefault(one => one.IsVertical == isVertical)
            ?? throw new InputDataException($"This board has no ruler that runs {(isVertical ? "down" : "to the right")}, so leave out {(isVertical ? "--ruler-y-mm" : "--ruler-x-mm")}.");
        if (!(Math.Abs((metres / ruler.Length) - 1) < 0.5))
        {
            throw new InputDataException(FormattableString.Invariant(
                $"{(isVertical ? "--ruler-y-mm" : "--ruler-x-mm")} {metres * 1e3:0.###} cannot be: that ruler is {ruler.Length * 1e3:0} mm long from its first to its last mark; give what a steel rule reads between these two."));
        }

        return (metres / ruler.Length, RulerSigma / ruler.Length);
    }

    private static PrintScaleCheck Scanned(PlaneFitResult plane, double dpi)
    {
        double perMetre = dpi / MetresPerInch;
        double mean = plane.PixelsPerMetre / perMetre;
        double root = Math.Sqrt(plane.Ratio);
        return new PrintScaleCheck
        {
            X = mean * root,
            SigmaX = ScannerSigma,
            Y = mean / root,
            SigmaY = ScannerSigma,
            Ratio = plane.Ratio,
            RatioSigma = double.Hypot(plane.RatioSigma, ScannerSigma * Math.Sqrt(2)),
            Basis = "the scanner's own scale, trusted to 0.2 % in each direction: turn the board by 90 degrees and scan again to tell printer from scanner",
        };
    }
}
