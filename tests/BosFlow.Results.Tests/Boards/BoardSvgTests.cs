using System.Globalization;
using System.Xml.Linq;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Boards;

public sealed class BoardSvgTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    [Fact]
    public void Svg_Sheet_SizeInMillimetresAndEveryDotToFourDecimals()
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2);
        Sheet sheet = print.Plan.Sheets[0];

        XElement svg = Parse(stream => BoardSvg.WriteSheet(stream, print, sheet, CancellationToken.None));

        Assert.Equal("105mm", (string?)svg.Attribute("width"));
        Assert.Equal("148mm", (string?)svg.Attribute("height"));
        Assert.Equal("0 0 105 148", (string?)svg.Attribute("viewBox"));
        XElement[] circles = [.. Named(svg, "circle")];
        Assert.Equal(print.Board.Dots.Count, circles.Length);
        for (int i = 0; i < circles.Length; i++)
        {
            PrintedDot dot = print.Board.Dots[i];
            Assert.Equal((dot.X + sheet.OffsetX) * 1000, Number(circles[i], "cx"), 0.00006);
            Assert.Equal((dot.Y + sheet.OffsetY) * 1000, Number(circles[i], "cy"), 0.00006);
            Assert.Equal(0.6, Number(circles[i], "r"), 1e-9);
        }

        Assert.Contains(Named(svg, "text"), text => text.Value.StartsWith("Print at 100 %", StringComparison.Ordinal));
    }

    [Fact]
    public void Svg_RenderedByAnotherProgram_DotsAsDescribed()
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2);
        Sheet sheet = print.Plan.Sheets[0];
        string path = folder.PathOf("board.svg");
        File.WriteAllBytes(path, SampleBoards.Bytes(stream => BoardSvg.WriteSheet(stream, print, sheet, CancellationToken.None)));

        ChildProcess.Run("rsvg-convert", "--dpi-x", "600", "--dpi-y", "600", "--background-color", "white", "-o", folder.PathOf("board.png"), path);
        GreyPage page = RenderedBoard.Pillow(folder, folder.PathOf("board.png")).Page;
        PageFidelity fidelity = PageFidelity.Measure(page, DiscFinder.Scale(255, 0), RenderedBoard.Dpi, RenderedBoard.Expected(print, sheet));

        Assert.Equal(2480, page.Width, 1.0);
        Assert.Equal(print.Board.Dots.Count, fidelity.Found);
        Assert.InRange(fidelity.MedianDiameterError, -0.005, 0.005);
        Assert.InRange(fidelity.WorstPlaceErrorMillimetres, 0, 0.02);
    }

    [Fact]
    public void Svg_Assembly_NamesEverySheet()
    {
        BoardPrint print = SampleBoards.Tiled();

        XElement svg = Parse(stream => BoardSvg.WriteAssembly(stream, print));

        Assert.All(print.Plan.Sheets, sheet => Assert.Contains(Named(svg, "text"), text => text.Value == sheet.Name));
    }

    [Fact]
    public void Contours_TwoTone_GroupsOfHairlinesWithoutFillOrText()
    {
        BoardPrint print = SampleBoards.Filling(SampleBoards.SmallPaper, 1.2, BoardTones.TwoTone, inkGainMillimetres: 0.1);
        Board board = print.Board;

        XElement svg = Parse(stream => BoardContours.Write(stream, board, CancellationToken.None));

        Assert.Equal($"0 0 {BoardWords.Millimetres(board.Settings.WidthMetres)} {BoardWords.Millimetres(board.Settings.HeightMetres)}", (string?)svg.Attribute("viewBox"));
        Assert.Empty(Named(svg, "text"));
        Assert.All(svg.Descendants().Attributes("fill"), fill => Assert.Equal("none", fill.Value));
        Assert.Equal("none", (string?)svg.Elements().Last().Attribute("fill"));
        XElement Group(string id) => Named(svg, "g").Single(group => (string?)group.Attribute("id") == id);
        Assert.Equal(board.Dots.Count, Named(Group("dots"), "circle").Count());
        Assert.Equal(board.Dots.Count(dot => dot.IsLight), Named(Group("dots-light"), "circle").Count());
        Assert.Equal(board.Fiducials.Count, Named(Group("fiducials"), "path").Count());
        Assert.Single(Named(Group("outline"), "rect"));
        // The gain is the ink's; a cutter has none.
        Assert.All(Named(Group("dots"), "circle"), circle => Assert.Equal(0.6, Number(circle, "r"), 1e-9));
    }

    public void Dispose() => folder.Dispose();

    private static XElement Parse(Action<Stream> write)
    {
        using var stream = new MemoryStream(SampleBoards.Bytes(write));
        return XDocument.Load(stream).Root!;
    }

    private static IEnumerable<XElement> Named(XElement root, string name) => root.Descendants().Where(element => element.Name.LocalName == name);

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
