using System.Security.Cryptography;
using System.Text.Json;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;
using CsCheck;

namespace BosFlow.Results.Tests.Boards;

public sealed class BoardFileTests
{
    private static readonly Gen<BoardSettings> AnyBoard =
        from width in Gen.Double[0.045, 0.2]
        from height in Gen.Double[0.045, 0.2]
        from diameter in Gen.Double[1e-3, 3e-3]
        from smaller in Gen.Double[0.3, 1]
        from gap in Gen.Double[0, 0.1]
        from tones in Gen.Enum<BoardTones>()
        from fiducials in Gen.Bool
        from seed in Gen.ULong
        select new BoardSettings
        {
            WidthMetres = width,
            HeightMetres = height,
            Sizes = smaller > 0.9 ? [new(diameter, 1)] : [new(diameter, 0.4), new(diameter * smaller, 0.6)],
            Coverage = 0.25,
            LeastGapMetres = gap < 0.02 ? null : gap * diameter,
            Tones = tones,
            WithFiducials = fiducials,
            FiducialSideMetres = 0.0061,
            InkGainMetres = 0.1 * diameter * smaller,
            Seed = seed,
        };

    [Fact]
    public void Read_AnyBoardWritten_IsThatVeryBoard()
    {
        using var folder = new TemporaryFolder();
        string path = folder.PathOf("board.json");
        Gen.Select(AnyBoard, Gen.Bool).Sample((settings, sheets) =>
        {
            BoardDocument written = SampleBoard.Document(settings, sheets);
            BoardFile.Write(path, written);

            BoardDocument read = BoardFile.Read(path);

            Assert.Equal(written.Board.Dots, read.Board.Dots);
            Assert.Equal(written.DotCount, read.DotCount);
            AssertSameButDots(written, read);
            AssertSameButDots(written, BoardFile.ReadWithoutDots(path));
        }, iter: 40, threads: 1);
    }

    [Fact]
    public void Write_SameDocument_GivesSameBytes()
    {
        using var folder = new TemporaryFolder();
        BoardFile.Write(folder.PathOf("a", "board.json"), SampleBoard.Document(SampleBoard.Settings(), isCutToSheets: true));
        BoardFile.Write(folder.PathOf("b", "board.json"), SampleBoard.Document(SampleBoard.Settings(), isCutToSheets: true));

        foreach (string name in new[] { "board.json", "board.dots.csv" })
            Assert.Equal(File.ReadAllBytes(folder.PathOf("a", name)), File.ReadAllBytes(folder.PathOf("b", name)));
    }

    [Fact]
    public void Write_ABoard_StatesMillimetresAsAPersonReadsThem()
    {
        using var folder = new TemporaryFolder();
        string path = folder.PathOf("board.json");
        BoardDocument document = SampleBoard.Document(new BoardSettings { WidthMetres = 0.194, HeightMetres = 0.281, Sizes = [new(1e-3, 1)] });

        BoardFile.Write(path, document);

        using JsonDocument json = JsonDocument.Parse(File.ReadAllText(path));
        JsonElement top = json.RootElement;
        Assert.Equal("194", top.GetProperty("board_width_mm").GetRawText());
        Assert.Equal("1", top.GetProperty("dot_sizes")[0].GetProperty("diameter_mm").GetRawText());
        Assert.Equal("2026-11-25", top.GetProperty("date").GetString());
        Assert.Equal("22", top.GetProperty("fiducials")[0].GetProperty("x_mm").GetRawText());
        Assert.Equal(JsonValueKind.Null, top.GetProperty("sheets").ValueKind);
        string[] lines = File.ReadAllLines(BoardFile.DotsPathOf(path));
        Assert.Equal("x_mm,y_mm,diameter_mm,tone", lines[0]);
        Assert.Equal(document.Board.Dots.Count + 1, lines.Length);
        PrintedDot first = document.Board.Dots[0];
        Assert.Equal(FormattableString.Invariant($"{first.X * 1000:0.0000},{first.Y * 1000:0.0000},1.0000,dark"), lines[1]);
        // The hash is that of the file, by the library's own function.
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(BoardFile.DotsPathOf(path)))), top.GetProperty("dots").GetProperty("sha256").GetString());
    }

    [Fact]
    public void Write_DotBetweenSteps_IsRefused()
    {
        using var folder = new TemporaryFolder();
        BoardDocument document = SampleBoard.Document(SampleBoard.Settings());
        BoardDocument between = document with { Board = document.Board with { Dots = [document.Board.Dots[0] with { X = 0.02000004 }] } };

        Assert.Throws<ArgumentException>(() => BoardFile.Write(folder.PathOf("board.json"), between));
        Assert.Empty(Directory.GetFiles(folder.Root));
    }

    private static void AssertSameButDots(BoardDocument expected, BoardDocument actual)
    {
        Assert.Equal((expected.Date, expected.ProgramVersion), (actual.Date, actual.ProgramVersion));
        Assert.Equal(expected.Board.Settings.Sizes, actual.Board.Settings.Sizes);
        Assert.Equal(expected.Board.Settings with { Sizes = [] }, actual.Board.Settings with { Sizes = [] });
        Assert.Equal(expected.Board.Fiducials, actual.Board.Fiducials);
        Assert.Equal(expected.Board.Rulers, actual.Board.Rulers);
        Assert.Equal(
            (expected.Board.Pattern, expected.Board.Legend, expected.Board.FiducialQuietZone, expected.Board.CoverageReached),
            (actual.Board.Pattern, actual.Board.Legend, actual.Board.FiducialQuietZone, actual.Board.CoverageReached));
        Assert.Equal(expected.Sheets?.Sheets, actual.Sheets?.Sheets);
        Assert.Equal(expected.Sheets is null ? null : expected.Sheets with { Sheets = [] }, actual.Sheets is null ? null : actual.Sheets with { Sheets = [] });
    }
}
