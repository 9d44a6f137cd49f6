using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Boards;

/// <summary>Sheets of a tiled board, rendered by poppler and put together again by their crop marks, as with paper and glue.</summary>
public sealed class TiledBoardTests : IDisposable
{
    private const double PixelsPerMetre = RenderedBoard.Dpi / 0.0254;
    private const double MarkReach = 0.004;

    private readonly TemporaryFolder folder = new();

    [Fact]
    public void Tiles_PutTogetherByCropMarks_DotsAsDescribed()
    {
        BoardPrint print = SampleBoards.Tiled();
        string pdf = RenderedBoard.WritePdf(folder, print);
        Board board = print.Board;
        int[] seen = new int[board.Dots.Count];
        double[] ink = PageFidelity.Poppler(255, 0);
        double worst = 0;
        for (int i = 0; i < print.Plan.Sheets.Count; i++)
        {
            Sheet sheet = print.Plan.Sheets[i];
            // The first page is the sketch.
            GreyPage page = RenderedBoard.Poppler(folder, pdf, i + 2);
            (double markX, double markY) = UpperLeftMarks(page, ink, sheet);
            var finder = new DiscFinder(page, ink);
            for (int dot = 0; dot < board.Dots.Count; dot++)
            {
                PrintedDot wanted = board.Dots[dot];
                if (!RenderedBoard.IsWhole(print, sheet.Printed, wanted) || TouchesMark(sheet, wanted))
                    continue;
                FoundDisc? found = finder.At(
                    (wanted.X - sheet.Printed.Left + sheet.OffsetX) * PixelsPerMetre,
                    (wanted.Y - sheet.Printed.Top + sheet.OffsetY) * PixelsPerMetre);
                Assert.NotNull(found);
                // Where the glued sheet has it: from its cut edges, which lie on the lines of the board.
                double x = sheet.Net.Left + ((found.Value.X - markX) / PixelsPerMetre);
                double y = sheet.Net.Top + ((found.Value.Y - markY) / PixelsPerMetre);
                worst = Math.Max(worst, Math.Max(Math.Abs(x - wanted.X), Math.Abs(y - wanted.Y)));
                seen[dot]++;
            }
        }

        Assert.Equal(4, print.Plan.Sheets.Count);
        Assert.InRange(worst, 0, 0.1e-3);
        for (int dot = 0; dot < seen.Length; dot++)
        {
            PrintedDot wanted = board.Dots[dot];
            int sheets = print.Plan.Sheets.Count(sheet => RenderedBoard.IsWhole(print, sheet.Printed, wanted) && !TouchesMark(sheet, wanted));
            Assert.Equal(sheets, seen[dot]);
        }
    }

    [Fact]
    public void Tiles_DotsInAnOverlap_AreOnBothSheets()
    {
        BoardPrint print = SampleBoards.Tiled();
        Sheet first = print.Plan.Sheets[0];
        Sheet right = print.Plan.Sheets[1];
        var strip = new BoardRectangle(right.Net.Left, right.Net.Top, first.Printed.Right - right.Net.Left, first.Net.Height);
        PrintedDot[] shared = [.. print.Board.Dots.Where(dot => RenderedBoard.IsWhole(print, strip, dot) && !TouchesMark(first, dot) && !TouchesMark(right, dot))];
        string pdf = RenderedBoard.WritePdf(folder, print);
        var onFirst = new DiscFinder(RenderedBoard.Poppler(folder, pdf, 2), PageFidelity.Poppler(255, 0));
        var onRight = new DiscFinder(RenderedBoard.Poppler(folder, pdf, 3), PageFidelity.Poppler(255, 0));

        Assert.Equal(0.010, strip.Width, 1e-9);
        Assert.InRange(shared.Length, 50, 500);
        foreach (PrintedDot dot in shared)
        {
            FoundDisc? a = onFirst.At((dot.X - first.Printed.Left + first.OffsetX) * PixelsPerMetre, (dot.Y - first.Printed.Top + first.OffsetY) * PixelsPerMetre);
            FoundDisc? b = onRight.At((dot.X - right.Printed.Left + right.OffsetX) * PixelsPerMetre, (dot.Y - right.Printed.Top + right.OffsetY) * PixelsPerMetre);
            Assert.NotNull(a);
            Assert.NotNull(b);
            Assert.Equal(a.Value.Diameter, b.Value.Diameter, 0.01 * a.Value.Diameter);
        }
    }

    [Fact]
    public void Tiles_EachPage_NamesItsSheetAndNeighbours()
    {
        BoardPrint print = SampleBoards.Tiled();
        string pdf = RenderedBoard.WritePdf(folder, print);
        string Text(string page) => ChildProcess.Run("pdftotext", "-f", page, "-l", page, pdf, "-");

        string sketch = Text("1");
        Assert.Contains("Assembly of the board 160 x 200 mm", sketch, StringComparison.Ordinal);
        Assert.Contains("Never cut PVC", sketch.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.All((string[])["A1", "A2", "B1", "B2"], name => Assert.Contains(name, sketch, StringComparison.Ordinal));
        Assert.Contains("Sheet A1, right A2, below B1", Text("2"), StringComparison.Ordinal);
        Assert.Contains("Sheet A2, left A1, below B2", Text("3"), StringComparison.Ordinal);
        Assert.Contains("Sheet B1, right B2, above A1", Text("4"), StringComparison.Ordinal);
        Assert.Contains("Sheet B2, left B1, above A2", Text("5"), StringComparison.Ordinal);
        Assert.Contains("BosFlow 0.0-test", Text("4"), StringComparison.Ordinal);
    }

    public void Dispose() => folder.Dispose();

    // A mark in a strip lies over dots; the lines go outward from the corners of the net.
    private static bool TouchesMark(Sheet sheet, PrintedDot dot)
    {
        bool Near(double x, double y) => Math.Abs(dot.X - x) < MarkReach + 0.001 && Math.Abs(dot.Y - y) < MarkReach + 0.001;
        BoardRectangle net = sheet.Net;
        return Near(net.Left, net.Top) || Near(net.Right, net.Top) || Near(net.Left, net.Bottom) || Near(net.Right, net.Bottom);
    }

    // Middle of the ink of the upright mark above and of the level mark beside the upper left corner, outside the print.
    private static (double X, double Y) UpperLeftMarks(GreyPage page, double[] ink, Sheet sheet)
    {
        int cornerX = (int)Math.Round(sheet.OffsetX * PixelsPerMetre);
        int cornerY = (int)Math.Round(sheet.OffsetY * PixelsPerMetre);
        int mm = (int)(PixelsPerMetre / 1000);
        (double x, _) = page.MiddleOfInk(ink, cornerX - mm, cornerX + mm, cornerY - (2 * mm), cornerY - mm);
        (_, double y) = page.MiddleOfInk(ink, cornerX - (2 * mm), cornerX - mm, cornerY - mm, cornerY + mm);
        Assert.True(double.IsFinite(x + y), "there is no crop mark");
        return (x, y);
    }
}
