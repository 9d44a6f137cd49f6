using System.Globalization;
using System.Text;
using BosFlow.Benchmarks.Reporting;

namespace BosFlow.Benchmarks.Printing;

/// <summary>How long a large board takes, and how true its drawings are to the description, as a report.</summary>
internal static class PrintMeasurement
{
    public static void Run(MeasurementOptions options)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"""
            # Printed boards

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- print --rounds {options.Rounds}` on {MachineDescription.Line()}.

            ## Time and size

            One A0 sheet of about a million dots. Seconds are medians of {options.Rounds} rounds, and depend on the machine and what else it does, processor seconds (of all threads) less so. Required: the pattern
            and its PDF in at most 10 s, the PDF at most 40 MB.

            {MarkdownTable.Of(PrintSpeed.Header, PrintSpeed.Rows(options.Rounds))}
            ## Truth to the description

            Every dot of the page is looked for at the place that the description states, as a connected area of ink in a rendering by another program at 600 dpi. Its diameter
            follows from its area (sum of the ink of its pixels), its place is the middle of its ink. Poppler's renderer has 4 x 4 points a pixel and draws k covered ones with
            (k / 16)^1.5 of the ink (its 17 grey levels show it); that is undone. What is left of its errors, such as circles drawn as polygons of points that are wholly in or out, is in
            the figures: a tenth of a pixel in diameter, so that dots of 0.64 mm (15 px) look 0.9 % too large. Its other renderer, cairo, is closer and slower; it sees a corner of 40 x 40 mm.
            The file itself is exact: a test reads the width of the strokes and the places of the dots in it, and finds 0.640000 mm and at most 0.0001 mm.
            Required: diameter within 0.5 %, place within 0.02 mm; tiles within 0.1 mm after they are laid by their crop marks. "Worst" is the largest over all dots.

            {MarkdownTable.Of(PrintFidelity.Header, PrintFidelity.Rows())}
            """);
        ReportFile.Write(options.Output, text.ToString());
    }
}
