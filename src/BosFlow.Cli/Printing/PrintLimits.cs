using System.Globalization;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>What printers, cutters and pictures cannot resolve.</summary>
internal static class PrintLimits
{
    private const double MillimetresPerMetre = 1e3;
    private const double MetresPerInch = 0.0254;

    // A disc of fewer printer dots has no roundness and no reliable area; common practice, no source.
    private const double LeastPrinterDots = 5;

    private const double LowestDpi = 30;
    private const double HighestDpi = 12000;
    private const double SmallestFeature = 0.01e-3;
    private const double LargestFeature = 0.1;

    /// <summary>Notes dots that the printer cannot print.</summary>
    public static void CheckPrinter(PrintRequest request, BoardSettings settings, ICollection<string> problems)
    {
        if (!IsDpi(request.PrinterDpi))
        {
            problems.Add(OutOfRange("--printer-dpi", request.PrinterDpi));
            return;
        }

        double least = LeastPrinterDots * MetresPerInch / request.PrinterDpi;
        double drawn = settings.Sizes[^1].DiameterMetres - settings.InkGainMetres;
        if (drawn < least)
        {
            string what = settings.InkGainMetres == 0 ? string.Empty : ", drawn " + BoardWords.Millimetres(drawn) + " mm for the ink gain,";
            problems.Add($"Dots of {BoardWords.Millimetres(settings.Sizes[^1].DiameterMetres)} mm{what} are below 5 dots of the printer; at {Text(request.PrinterDpi)} dpi the smallest is {Up(least)} mm, so give larger dots or a printer of a higher --printer-dpi.");
        }
    }

    /// <summary>Notes what the cutter cannot cut, and what it should not.</summary>
    public static void CheckCutter(PrintRequest request, BoardSettings settings, ICollection<string> problems, ICollection<string> warnings)
    {
        if (request.Contours is null)
        {
            if (request.CutterMillimetres is not null)
                problems.Add("--cutter-mm is for --contours only; give that too, or leave it out.");
            return;
        }

        double feature = (request.CutterMillimetres ?? 0.5) / MillimetresPerMetre;
        if (!(feature >= SmallestFeature && feature <= LargestFeature))
        {
            problems.Add($"--cutter-mm {Text(feature * MillimetresPerMetre)} is out of range; give 0.01 to 100 mm.");
            return;
        }

        string limit = $"{BoardWords.Millimetres(feature)} mm (--cutter-mm)";
        double smallest = settings.Sizes[^1].DiameterMetres;
        if (smallest < feature)
            problems.Add($"Dots of {BoardWords.Millimetres(smallest)} mm are smaller than the cutter makes, {limit}; give larger dots or a finer cutter.");
        double cell = settings.FiducialMetres / FiducialCode.Cells;
        if (settings.WithFiducials && cell < feature)
            problems.Add($"The cells of the fiducials are {BoardWords.Millimetres(cell)} mm, smaller than the cutter makes, {limit}; give --fiducial-mm {Up(feature * FiducialCode.Cells)} or more.");
        if (smallest >= feature && settings.GapMetres < feature)
            warnings.Add($"Webs between dots may be {BoardWords.Millimetres(settings.GapMetres)} mm thin, below what the cutter makes, {limit}; where they have to hold, give --gap-mm {BoardWords.Millimetres(feature)} or more.");
    }

    /// <summary>Notes a picture that has too many pixels, and one that shows dots too coarsely.</summary>
    public static void CheckPicture(PrintRequest request, BoardSettings settings, PaperSize paper, ICollection<string> problems, ICollection<string> warnings)
    {
        bool hasPng = request.Outputs.Any(output => PrintFiles.KindOf(output) == PrintFileKind.Png);
        if (!hasPng && request.Dpi is not null)
            problems.Add("--dpi is for PNG only; give an --output that ends in .png too, or leave it out.");
        if (!hasPng)
            return;
        double dpi = request.Dpi ?? PrintPreparation.StandardDpi;
        if (!IsDpi(dpi))
        {
            problems.Add(OutOfRange("--dpi", dpi));
            return;
        }

        (long width, long height) = BoardPng.Size(paper, dpi);
        if (width * height > BoardPng.MostPixels)
            problems.Add($"A PNG of {paper.Name} at {Text(dpi)} dpi has {width} x {height} px, more than most programs open; give --dpi {BoardPng.HighestDpi(paper)} or less, or a PDF.");
        double pixels = (settings.Sizes[^1].DiameterMetres - settings.InkGainMetres) / MetresPerInch * dpi;
        if (pixels < LeastPrinterDots)
            warnings.Add($"Dots are only {pixels.ToString("0.0", CultureInfo.InvariantCulture)} px wide in a PNG of {Text(dpi)} dpi: fine for the screen, too coarse for the printer; print the PDF, or give a higher --dpi.");
    }

    private static bool IsDpi(double dpi) => dpi is >= LowestDpi and <= HighestDpi;

    private static string OutOfRange(string option, double value) => $"{option} {Text(value)} is out of range; give {LowestDpi} to {HighestDpi} dots per inch.";

    private static string Text(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    // Rounded up, so that the limit named is one that passes.
    private static string Up(double metres) => (Math.Ceiling((metres * MillimetresPerMetre * 1e3) - 1e-6) / 1e3).ToString("0.###", CultureInfo.InvariantCulture);
}
