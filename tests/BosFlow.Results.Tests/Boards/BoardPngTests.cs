using System.Globalization;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Boards;

/// <summary>The PNG as another program sees it: Pillow.</summary>
public sealed class BoardPngTests : IDisposable
{
    // Two pixels.
    private const double Apart = 0.1e-3;

    private readonly TemporaryFolder folder = new();

    [Theory]
    [InlineData(BoardTones.Dark, 255, 0)]
    [InlineData(BoardTones.Inverted, 0, 255)]
    public void Png_600Dpi_ResolutionAndDotsAsDescribed(BoardTones tones, byte ground, byte dot)
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2, tones);
        Sheet sheet = print.Plan.Sheets[0];

        (GreyPage page, string facts) = RenderedBoard.Pillow(folder, Write(print, 600));
        PageFidelity fidelity = PageFidelity.Measure(page, DiscFinder.Scale(ground, dot), 600, Inside(print, sheet));

        string[] words = facts.Split(' ');
        Assert.Equal(["L", "2480", "3496"], words[..3]);
        // PNG stores whole pixels a metre: 600 dpi is 23622.05 of them.
        Assert.All(words[3..], dpi => Assert.Equal(600, double.Parse(dpi, CultureInfo.InvariantCulture), 0.002));
        Assert.Equal(Inside(print, sheet).Count, fidelity.Found);
        // 28 px across: the 256 levels alone could be 0.05 % off.
        Assert.InRange(fidelity.MedianDiameterError, -0.0005, 0.0005);
        Assert.InRange(fidelity.WorstDiameterError, 0, 0.002);
        Assert.InRange(fidelity.WorstPlaceErrorMillimetres, 0, 0.002);
    }

    [Fact]
    public void Png_InBands_SamePictureAsInOne()
    {
        BoardPrint print = SampleBoards.Tiled(BoardTones.TwoTone);
        Sheet sheet = print.Plan.Sheets[0];

        GreyPage whole = Unpacked(stream => BoardPng.WriteSheet(stream, print, sheet, 150, int.MaxValue, CancellationToken.None));
        GreyPage bands = Unpacked(stream => BoardPng.WriteSheet(stream, print, sheet, 150, 37, CancellationToken.None));

        Assert.Equal(whole.Width, bands.Width);
        // Edges of marks and letters are single precision from the top of the band: a step of the rasteriser, 1/64 px, may fall to the other side.
        Assert.All(whole.Pixels.Zip(bands.Pixels), pair => Assert.InRange(Math.Abs(pair.First - pair.Second), 0, 8));
    }

    [Fact]
    public void Png_SamePrint_SameBytes()
    {
        BoardPrint print = SampleBoards.Tiled();

        Assert.Equal(
            SampleBoards.Bytes(stream => BoardPng.WriteAssembly(stream, print, 100, CancellationToken.None)),
            SampleBoards.Bytes(stream => BoardPng.WriteAssembly(stream, print, 100, CancellationToken.None)));
    }

    [Fact]
    public void HighestDpi_A0_FitsAndOneMoreDoesNot()
    {
        PaperSize paper = PaperSize.Find("A0")!;
        int dpi = BoardPng.HighestDpi(paper);

        (long width, long height) = BoardPng.Size(paper, dpi);
        (long widthAbove, long heightAbove) = BoardPng.Size(paper, dpi + 1);

        Assert.InRange(width * height, 1, BoardPng.MostPixels);
        Assert.True(widthAbove * heightAbove > BoardPng.MostPixels);
        Assert.Equal((19866, 28087), BoardPng.Size(paper, 600));
    }

    public void Dispose() => folder.Dispose();

    // On a dark ground a dot that reaches its edge, or the white zone of a fiducial, flows into the white there.
    private static IReadOnlyList<ExpectedDisc> Inside(BoardPrint print, Sheet sheet)
    {
        Board board = print.Board;
        var inner = new BoardRectangle(board.Pattern.Left + Apart, board.Pattern.Top + Apart, board.Pattern.Width - (2 * Apart), board.Pattern.Height - (2 * Apart));
        bool NearFiducial(PrintedDot dot) => board.Fiducials.Any(mark =>
        {
            double reach = (mark.Side / 2) + board.FiducialQuietZone + (board.DrawnDiameter(dot) / 2) + Apart;
            return Math.Abs(dot.X - mark.X) < reach && Math.Abs(dot.Y - mark.Y) < reach;
        });
        Board kept = board with { Dots = [.. board.Dots.Where(dot => RenderedBoard.IsWhole(print, inner, dot) && !NearFiducial(dot))] };
        return RenderedBoard.Expected(print with { Board = kept }, sheet);
    }

    private string Write(BoardPrint print, double dpi)
    {
        string path = folder.PathOf("board.png");
        File.WriteAllBytes(path, SampleBoards.Bytes(stream => BoardPng.WriteSheet(stream, print, print.Plan.Sheets[0], dpi, CancellationToken.None)));
        return path;
    }

    private GreyPage Unpacked(Action<Stream> write)
    {
        string path = folder.PathOf("picture.png");
        File.WriteAllBytes(path, SampleBoards.Bytes(write));
        return RenderedBoard.Pillow(folder, path).Page;
    }
}
