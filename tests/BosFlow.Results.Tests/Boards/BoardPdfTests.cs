using System.Globalization;
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

    [GeneratedRegex(@"Page size:\s+(?<w>[\d.]+) x (?<h>[\d.]+) pts")]
    private static partial Regex PageSizeLine();
}
