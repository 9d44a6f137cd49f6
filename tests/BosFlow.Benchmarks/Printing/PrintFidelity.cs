using System.Globalization;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Printing;

/// <summary>Drawings rendered by other programs, beside the description.</summary>
internal static class PrintFidelity
{
    private const int Dpi = 600;
    private const double PixelsPerMetre = Dpi / 0.0254;

    // Two pixels, mm: a rendering of 600 dpi keeps the dots apart.
    private const double Gap = 0.1;

    // Rows of a page that are rendered and looked at in one go: an A0 page would take more than half a gigabyte.
    private const int BandRows = 7100;
    private const int BandOverlap = 100;

    public static IReadOnlyList<string> Header => ["drawing", "program", "dots", "found", "diameter, median error, %", "diameter, worst error, %", "place, worst error, mm"];

    public static IEnumerable<IReadOnlyList<string>> Rows()
    {
        foreach ((string paper, double dot) in ((string, double)[])[("A4", 1.0), ("A4", 0.64), ("A0", 2.5), ("A0", 0.64)])
        {
            Console.Error.WriteLine($"{paper}, {dot} mm");
            BoardPrint print = LargeBoard.On(BoardMaker.Make(LargeBoard.Filling(paper, dot, Gap), CancellationToken.None), paper);
            string name = $"{paper}, dots of {BoardWords.Millimetres(dot / 1000)} mm";
            yield return Row($"PDF, {name}", "poppler (splash)", print.Board.Dots.Count, Pdf(print));
            (int dots, PageFidelity fidelity) = Corner(print);
            yield return Row($"PDF, {name}, lower right corner", "poppler (cairo)", dots, fidelity);
            if (paper == "A4")
                yield return Row($"PNG 600 dpi, {name}", "Pillow", print.Board.Dots.Count, Png(print));
        }

        BoardPrint tiled = LargeBoard.On(BoardMaker.Make(LargeBoard.Tiled(), CancellationToken.None), "A4");
        (int tiles, PageFidelity laid) = Tiles(tiled);
        yield return Row($"PDF, {tiled.Plan.Sheets.Count} tiles of A4, dots of 1 mm, laid by crop marks", "poppler (splash)", tiles, laid);
    }

    private static PageFidelity Pdf(BoardPrint print)
    {
        using TemporaryFolder folder = new();
        string pdf = WritePdf(folder, print);
        int rows = (int)(print.Plan.Paper.HeightMetres * PixelsPerMetre);
        ExpectedDisc[] expected = [.. Expected(print, print.Plan.Sheets[0])];
        List<PageFidelity> parts = [];
        double done = 0;
        for (int top = 0; top < rows; top += BandRows - BandOverlap)
        {
            double first = done;
            double last = top + BandRows >= rows ? double.PositiveInfinity : (top + BandRows - (BandOverlap / 2.0)) / PixelsPerMetre * 1000;
            GreyPage page = Render(folder, pdf, 1, top, BandRows);
            parts.Add(PageFidelity.Measure(page, PageFidelity.Poppler(255, 0), Dpi, [.. expected.Where(disc => disc.Y >= first && disc.Y < last)], topPixels: top));
            done = last;
        }

        return PageFidelity.Together(parts);
    }

    // Where float numbers would be worst: 40 x 40 mm at the end of the page away from its origin, by poppler's other renderer, which would take minutes for a page.
    private static (int Dots, PageFidelity Fidelity) Corner(BoardPrint print)
    {
        using TemporaryFolder folder = new();
        BoardRectangle pattern = print.Board.Pattern;
        Sheet sheet = print.Plan.Sheets[0];
        const double side = 0.04;
        // Inward from the fiducial in the corner.
        double zone = print.Board.Fiducials[0].Side + (2 * print.Board.FiducialQuietZone);
        var part = new BoardRectangle(pattern.Right - zone - side, pattern.Bottom - side, side, side);
        int left = (int)((part.Left - sheet.Printed.Left + sheet.OffsetX) * PixelsPerMetre);
        int top = (int)((part.Top - sheet.Printed.Top + sheet.OffsetY) * PixelsPerMetre);
        string size = ((int)(side * PixelsPerMetre)).ToString(CultureInfo.InvariantCulture);
        string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
        Run("pdftocairo", "-r", Text(Dpi), "-png", "-gray", "-singlefile", "-x", Text(left), "-y", Text(top), "-W", size, "-H", size, WritePdf(folder, print), folder.PathOf("part"));
        const double guard = 0.1e-3;
        var inside = new BoardRectangle(part.Left + guard, part.Top + guard, side - (2 * guard), side - (2 * guard));
        ExpectedDisc[] expected = [.. Expected(print, sheet, inside)];
        return (expected.Length, PageFidelity.Measure(Unpack(folder, "part.png"), DiscFinder.Scale(255, 0), Dpi, expected, left, top));
    }

    private static GreyPage Unpack(TemporaryFolder folder, string png)
    {
        const string unpack = "import sys\nfrom PIL import Image\nImage.open(sys.argv[1]).convert('L').save(sys.argv[2])";
        Run(ProcessRunner.DebianPython, "-c", unpack, folder.PathOf(png), folder.PathOf("unpacked.pgm"));
        return GreyPage.ReadPgm(folder.PathOf("unpacked.pgm"));
    }

    private static PageFidelity Png(BoardPrint print)
    {
        using TemporaryFolder folder = new();
        using (FileStream stream = File.Create(folder.PathOf("b.png")))
            BoardPng.WriteSheet(stream, print, print.Plan.Sheets[0], Dpi, CancellationToken.None);
        return PageFidelity.Measure(Unpack(folder, "b.png"), DiscFinder.Scale(255, 0), Dpi, [.. Expected(print, print.Plan.Sheets[0])]);
    }

    // The places of the dots count from the crop marks of their sheet, as the knife and the hand lay it.
    private static (int Dots, PageFidelity Fidelity) Tiles(BoardPrint print)
    {
        using TemporaryFolder folder = new();
        string pdf = WritePdf(folder, print);
        double[] ink = PageFidelity.Poppler(255, 0);
        List<PageFidelity> parts = [];
        int dots = 0;
        for (int i = 0; i < print.Plan.Sheets.Count; i++)
        {
            Sheet sheet = print.Plan.Sheets[i];
            GreyPage page = Render(folder, pdf, i + 2, 0, int.MaxValue);
            (double cornerX, double cornerY) = (sheet.OffsetX * PixelsPerMetre, sheet.OffsetY * PixelsPerMetre);
            const int mm = (int)(PixelsPerMetre / 1000);
            (int x, int y) = ((int)cornerX, (int)cornerY);
            (double markX, _) = page.MiddleOfInk(ink, x - mm, x + mm, y - (2 * mm), y - mm);
            (_, double markY) = page.MiddleOfInk(ink, x - (2 * mm), x - mm, y - mm, y + mm);
            (double shiftX, double shiftY) = ((markX - cornerX) / PixelsPerMetre * 1000, (markY - cornerY) / PixelsPerMetre * 1000);
            ExpectedDisc[] expected = [.. Expected(print, sheet).Select(disc => disc with { X = disc.X + shiftX, Y = disc.Y + shiftY })];
            dots += expected.Length;
            parts.Add(PageFidelity.Measure(page, ink, Dpi, expected));
        }

        return (dots, PageFidelity.Together(parts));
    }

    private static IEnumerable<ExpectedDisc> Expected(BoardPrint print, Sheet sheet) => Expected(print, sheet, sheet.Printed);

    // Dots that lie whole in an area of the board, away from the marks at the corners of tiles.
    private static IEnumerable<ExpectedDisc> Expected(BoardPrint print, Sheet sheet, BoardRectangle area)
    {
        BoardRectangle net = sheet.Net;
        bool NearMark(PrintedDot dot) => print.IsTiled
            && Math.Min(Math.Abs(dot.X - net.Left), Math.Abs(dot.X - net.Right)) < 0.006
            && Math.Min(Math.Abs(dot.Y - net.Top), Math.Abs(dot.Y - net.Bottom)) < 0.006;
        foreach (PrintedDot dot in print.Board.Dots)
        {
            double radius = print.Board.DrawnDiameter(dot) / 2;
            // A billionth lets a dot on the very edge count as inside.
            bool whole = dot.X - radius >= area.Left - 1e-9 && dot.X + radius <= area.Right + 1e-9
                && dot.Y - radius >= area.Top - 1e-9 && dot.Y + radius <= area.Bottom + 1e-9;
            if (whole && !NearMark(dot))
                yield return new ExpectedDisc((dot.X - sheet.Printed.Left + sheet.OffsetX) * 1000, (dot.Y - sheet.Printed.Top + sheet.OffsetY) * 1000, 2000 * radius);
        }
    }

    private static string WritePdf(TemporaryFolder folder, BoardPrint print)
    {
        using FileStream stream = File.Create(folder.PathOf("b.pdf"));
        BoardPdf.Write(stream, print, CancellationToken.None);
        return stream.Name;
    }

    private static GreyPage Render(TemporaryFolder folder, string pdf, int number, int top, int rows)
    {
        string Text(int value) => value.ToString(CultureInfo.InvariantCulture);
        string[] part = rows == int.MaxValue ? [] : ["-x", "0", "-y", Text(top), "-W", "40000", "-H", Text(rows)];
        Run("pdftoppm", ["-r", Text(Dpi), "-gray", "-f", Text(number), "-l", Text(number), "-singlefile", .. part, pdf, folder.PathOf("page")]);
        return GreyPage.ReadPgm(folder.PathOf("page.pgm"));
    }

    private static void Run(string program, params string[] arguments) =>
        ProcessRunner.RunAsync(program, arguments).GetAwaiter().GetResult().EnsureSuccess();

    private static string[] Row(string drawing, string program, int dots, PageFidelity fidelity) =>
    [
        drawing,
        program,
        dots.ToString("#,0", CultureInfo.InvariantCulture),
        fidelity.Found.ToString("#,0", CultureInfo.InvariantCulture),
        (100 * fidelity.MedianDiameterError).ToString("0.000", CultureInfo.InvariantCulture),
        (100 * fidelity.WorstDiameterError).ToString("0.000", CultureInfo.InvariantCulture),
        fidelity.WorstPlaceErrorMillimetres.ToString("0.0000", CultureInfo.InvariantCulture),
    ];
}
