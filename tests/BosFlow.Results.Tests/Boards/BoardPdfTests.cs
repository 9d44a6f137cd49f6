using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Boards;

/// <summary>The PDF as another program sees it: Debian's poppler.</summary>
public sealed partial class BoardPdfTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    [Fact]
    public void Pdf_A4RenderedByPoppler_DotsAsDescribed()
    {
        BoardPrint print = SampleBoards.Filling(PaperSize.Find("A4")!, 1.0);
        GreyPage page = RenderedBoard.Poppler(folder, RenderedBoard.WritePdf(folder, print), 1);

        PageFidelity fidelity = PageFidelity.Measure(page, PageFidelity.Poppler(255, 0), RenderedBoard.Dpi, RenderedBoard.Expected(print, print.Plan.Sheets[0]));

        Assert.Equal(print.Board.Dots.Count, fidelity.Found);
        Assert.InRange(fidelity.MedianDiameterError, -0.005, 0.005);
        Assert.InRange(fidelity.WorstDiameterError, 0, 0.005);
        Assert.InRange(fidelity.WorstPlaceErrorMillimetres, 0, 0.02);
    }

    [Fact]
    public void Pdf_A4_PageSizeIsExactAndTextIsText()
    {
        string path = RenderedBoard.WritePdf(folder, SampleBoards.Filling(PaperSize.Find("A4")!, 2.0));

        (double width, double height) = PageSize(path);
        string text = ChildProcess.Run("pdftotext", path, "-");

        Assert.Equal(210, width, 0.01);
        Assert.Equal(297, height, 0.01);
        foreach (string words in (string[])["Print at 100 %", "dots of 2 mm", "seed 5", "2026-11-25", "BosFlow 0.0-test", "This ruler is 170 mm long", "board 194 x 281 mm", "35.0 % covered"])
            Assert.Contains(words, text, StringComparison.Ordinal);
    }

    // What the file says, without a renderer's errors: each dot is a stroke of no length with round ends, as wide as the dot (ISO 32000-1, 8.4.3.3).
    [Fact]
    public void Pdf_SmallDotsOnA3_WidthAndPlacesInTheFileAreThoseDescribed()
    {
        const double points = 72 / 25.4;
        BoardPrint print = SampleBoards.Filling(PaperSize.Find("A3")!, 0.64);
        byte[] pdf = File.ReadAllBytes(RenderedBoard.WritePdf(folder, print));

        IReadOnlyList<ExpectedDisc> expected = RenderedBoard.Expected(print, print.Plan.Sheets[0]);
        (double X, double Y)[] strokes = [.. Strokes().Matches(FirstContent(pdf)).Select(match => (Number(match, "x"), Number(match, "y")))];

        double[] widths = [.. LineWidths().Matches(Encoding.Latin1.GetString(pdf)).Select(match => Number(match, "w") / points)];
        Assert.Contains(widths, width => Math.Abs(width - 0.64) < 1e-6);
        Assert.Equal(expected.Count, strokes.Length);
        Assert.All(expected.Zip(strokes), pair => Assert.Equal(0, Math.Abs(pair.First.X - (pair.Second.X / points)) + Math.Abs(pair.First.Y - (pair.Second.Y / points)), 1e-4));
    }

    [Fact]
    public void Pdf_DarkGroundBesideAFiducialAtTheEdge_NoHairlineAroundItsWhiteZone()
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2, BoardTones.Inverted);
        GreyPage page = RenderedBoard.Poppler(folder, RenderedBoard.WritePdf(folder, print), 1);
        Sheet sheet = print.Plan.Sheets[0];
        Fiducial mark = print.Board.Fiducials[0];

        // Across the left edge of the pattern at the height of the fiducial in its corner, up to its black border.
        int row = Pixels(mark.Y + sheet.OffsetY);
        int edge = Pixels(print.Board.Pattern.Left + sheet.OffsetX);

        Assert.All(Enumerable.Range(edge - 5, 10), x => Assert.Equal(255, page.Pixels[(row * page.Width) + x]));
    }

    [Theory]
    [InlineData("A3")]
    [InlineData("A0")]
    [InlineData("Letter")]
    public void Pdf_OtherPaper_PageSizeIsExact(string name)
    {
        PaperSize paper = PaperSize.Find(name)!;

        (double width, double height) = PageSize(RenderedBoard.WritePdf(folder, SampleBoards.Filling(paper, 2.5)));

        Assert.Equal(paper.WidthMetres * 1000, width, 0.01);
        Assert.Equal(paper.HeightMetres * 1000, height, 0.01);
    }

    [Fact]
    public void Pdf_SamePrint_SameBytes()
    {
        BoardPrint print = SampleBoards.Tiled(BoardTones.TwoTone);

        Assert.Equal(
            SampleBoards.Bytes(stream => BoardPdf.Write(stream, print, CancellationToken.None)),
            SampleBoards.Bytes(stream => BoardPdf.Write(stream, print, CancellationToken.None)));
    }

    [Fact]
    public void Pdf_Cancelled_Stops()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();

        Assert.Throws<OperationCanceledException>(() => SampleBoards.Bytes(stream => BoardPdf.Write(stream, SampleBoards.Tiled(), cancelled.Token)));
    }

    [Theory]
    [InlineData(BoardTones.Inverted, 0)]
    [InlineData(BoardTones.TwoTone, 128)]
    public void Pdf_OtherTones_GroundDotsAndFiducialsAsStated(BoardTones tones, byte ground)
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2, tones);
        GreyPage page = RenderedBoard.Poppler(folder, RenderedBoard.WritePdf(folder, print), 1);
        Sheet sheet = print.Plan.Sheets[0];
        byte At(double x, double y) => page.Pixels[(Pixels(y - sheet.Printed.Top + sheet.OffsetY) * page.Width) + Pixels(x - sheet.Printed.Left + sheet.OffsetX)];

        Fiducial mark = print.Board.Fiducials[0];
        double cell = mark.Side / FiducialCode.Cells;
        Assert.Equal(255, At(mark.X, mark.Y - (mark.Side / 2) - (print.Board.FiducialQuietZone / 2)));
        Assert.All(Enumerable.Range(0, FiducialCode.Cells * FiducialCode.Cells), i =>
        {
            (int row, int column) = Math.DivRem(i, FiducialCode.Cells);
            byte level = At(mark.X - (mark.Side / 2) + ((column + 0.5) * cell), mark.Y - (mark.Side / 2) + ((row + 0.5) * cell));
            Assert.Equal(FiducialCode.IsBlack(mark.Id, row, column) ? 0 : 255, level);
        });
        Assert.All(print.Board.Dots, dot => Assert.Equal(dot.IsLight ? 255 : 0, At(dot.X, dot.Y)));
        BoardRectangle pattern = print.Board.Pattern;
        int atGround = Enumerable.Range(0, 1000).Count(i => At(pattern.Left + (pattern.Width * (i + 0.5) / 1000), pattern.Top + (pattern.Height / 3)) == ground);
        // 35 % of a row is covered by dots, less on a single row by chance, and their edges have other levels.
        Assert.InRange(atGround, 500, 800);
    }

    [Fact]
    public void Pdf_InsideOfAFiducial_NoLineBetweenBlackCells()
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2);
        GreyPage page = RenderedBoard.Poppler(folder, RenderedBoard.WritePdf(folder, print), 1);
        Sheet sheet = print.Plan.Sheets[0];
        Fiducial mark = print.Board.Fiducials[0];
        double cell = mark.Side / FiducialCode.Cells;

        // Along the middle of the black border, over the seams of its cells, half a cell from its ends.
        int row = Pixels(mark.Y - (mark.Side / 2) + (cell / 2) - sheet.Printed.Top + sheet.OffsetY);
        int from = Pixels(mark.X - (mark.Side / 2) + (cell / 2) - sheet.Printed.Left + sheet.OffsetX);
        int to = Pixels(mark.X + (mark.Side / 2) - (cell / 2) - sheet.Printed.Left + sheet.OffsetX);

        Assert.All(Enumerable.Range(from, to - from), x => Assert.Equal(0, page.Pixels[(row * page.Width) + x]));
    }

    [Fact]
    public void Pdf_InkGain_DotsAreDrawnSmaller()
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2, inkGainMillimetres: 0.1);
        GreyPage page = RenderedBoard.Poppler(folder, RenderedBoard.WritePdf(folder, print), 1);

        PageFidelity fidelity = PageFidelity.Measure(page, PageFidelity.Poppler(255, 0), RenderedBoard.Dpi, RenderedBoard.Expected(print, print.Plan.Sheets[0]));

        Assert.Equal(print.Board.Dots.Count, fidelity.Found);
        Assert.Equal(1.1, fidelity.MedianDiameterMillimetres, 0.0055);
    }

    public void Dispose() => folder.Dispose();

    private static int Pixels(double metres) => (int)(metres / 0.0254 * RenderedBoard.Dpi);

    // pdfinfo prints hundredths of a point, 0.0035 mm.
    private static (double Width, double Height) PageSize(string pdf)
    {
        Match size = PageSizeLine().Match(ChildProcess.Run("pdfinfo", pdf));
        double Millimetres(string points) => double.Parse(points, CultureInfo.InvariantCulture) / 72 * 25.4;
        return (Millimetres(size.Groups["w"].Value), Millimetres(size.Groups["h"].Value));
    }

    private static double Number(Match match, string group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    // The content of the page is the first packed stream that begins with a matrix.
    private static string FirstContent(byte[] pdf)
    {
        foreach (Match start in StreamStart().Matches(Encoding.Latin1.GetString(pdf)))
        {
            int at = start.Index + start.Length;
            if (pdf[at] != 0x78)
                continue;
            using var unpacked = new ZLibStream(new MemoryStream(pdf, at, pdf.Length - at), CompressionMode.Decompress);
            using var reader = new StreamReader(unpacked, Encoding.Latin1);
            string text = reader.ReadToEnd();
            if (text.Contains(" cm\n", StringComparison.Ordinal))
                return text;
        }

        throw new InvalidDataException("The PDF has no page content.");
    }

    [GeneratedRegex(@"(?<x>[\d.]+) (?<y>[\d.]+) m\nh\nS")]
    private static partial Regex Strokes();

    [GeneratedRegex(@"/LW (?<w>[\d.]+)")]
    private static partial Regex LineWidths();

    [GeneratedRegex(@"[^d]stream\r?\n")]
    private static partial Regex StreamStart();

    [GeneratedRegex(@"Page size:\s+(?<w>[\d.]+) x (?<h>[\d.]+) pts")]
    private static partial Regex PageSizeLine();
}
