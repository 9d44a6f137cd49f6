using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Running;

public sealed class RunBoardTests
{
    private const string Section = "[board]\ndescription = \"board.json\"\n";

    [Fact]
    public async Task Run_WithABoard_WritesItDownAndWarnsOfLargeDots()
    {
        using var small = new SmallCase(frames: 1);
        small.Append(Section);
        Write(small, dotMetres: 4e-3);

        ProcessResult dry = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--dry-run");
        ProcessResult run = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Contains("Board:     board.json, 200 x 150 mm", dry.Output, StringComparison.Ordinal);
        Assert.Contains("a dot is 12.9 px wide in the picture", dry.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Contains("4 mm are 12.9 px wide in the picture; 2 to 5 px give the least error", run.Error, StringComparison.Ordinal);
        JsonNode identity = JsonNode.Parse(File.ReadAllText(small.PathOf("run/run.json")))!["identity"]!;
        Assert.Equal("board.json", (string)identity["board"]!["description"]!);
        Assert.Equal(0.004, (double)identity["board"]!["dot_sizes"]![0]!["diameter_metres"]!);
        Assert.Contains(identity["inputs"]!.AsArray(), input => (string)input!["role"]! == "board" && (string)input["sha256"]! == (string)identity["board"]!["sha256"]!);
        Assert.Contains("Diameter of the dots on the board", File.ReadAllText(small.PathOf("run/report.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_AgainWithAnotherBoard_IsRefused()
    {
        using var small = new SmallCase(frames: 1);
        small.Append(Section);
        Write(small, dotMetres: 1e-3);
        Assert.Equal(ExitCode.Done, (await CliRun.InsideAsync(small.Folder, "run", "case.toml")).ExitCode);
        Write(small, dotMetres: 1.2e-3);

        ProcessResult again = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.BadInput, again.ExitCode);
        Assert.Contains("board", again.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_BoardMissing_SaysSoBeforeAnyWork()
    {
        using var small = new SmallCase(frames: 1);
        small.Append(Section);

        ProcessResult run = await CliRun.InsideAsync(small.Folder, "run", "case.toml");

        Assert.Equal(ExitCode.BadInput, run.ExitCode);
        Assert.Contains("board.json cannot be read", run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(small.RunFolder));
    }

    [Fact]
    public async Task Run_BoardInTheReference_TellsItsScaleWithUncertaintyAndWarnsOfTheCase()
    {
        using PhotographedBoard board = PhotographedBoard.Make(caseScaleMillimetres: 0.31);

        ProcessResult dry = await CliRun.InsideAsync(board.Folder, "run", "case.toml", "--dry-run");
        ProcessResult run = await CliRun.InsideAsync(board.Folder, "run", "case.toml");

        Assert.Matches(@"it shows 0\.(1999|2000)\d* ± 0\.0\d+ mm/px in the reference \(\d+ fiducials, dots at \d+ places; fitted to 0\.0\d px\)", dry.Output);
        Assert.Equal(ExitCode.Done, run.ExitCode);
        Assert.Matches(@"The board \(board\.json\) shows 0\.(1999|2000)\d* ± 0\.0\d+ mm/px in the reference, the case says 0\.31 mm/px \(\+\d+\.\d %\)", run.Error);
        JsonNode seen = JsonNode.Parse(File.ReadAllText(Path.Combine(board.Folder, "run", "run.json")))!["board_scale"]!;
        Assert.Equal(PhotographedBoard.MetresPerPixel, (double)seen["metres_per_pixel"]!, 1e-3 * PhotographedBoard.MetresPerPixel);
        Assert.InRange((double)seen["metres_per_pixel_sigma"]!, 1e-7 * PhotographedBoard.MetresPerPixel, 1e-3 * PhotographedBoard.MetresPerPixel);
        Assert.False((bool)seen["is_weak"]!);
        Assert.Contains("Scale that the board shows in the reference", File.ReadAllText(Path.Combine(board.Folder, "run", "report.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_DotsOfAnotherBoard_SaysSo()
    {
        using PhotographedBoard board = PhotographedBoard.Make(caseScaleMillimetres: 0.2);
        board.Describe(seed: 8);

        ProcessResult dry = await CliRun.InsideAsync(board.Folder, "run", "case.toml", "--dry-run");

        Assert.Matches(@"are those of the board \(board\.json\), but only 0 of \d+ places with dots look as it describes: give the description that was written with this very board", dry.Output + dry.Error);
    }

    private static void Write(SmallCase small, double dotMetres)
    {
        Board board = BoardMaker.Make(new BoardSettings { WidthMetres = 0.2, HeightMetres = 0.15, Sizes = [new DotSize(dotMetres, 1)], WithFiducials = false }, CancellationToken.None);
        BoardFile.Write(small.PathOf("board.json"), new BoardDocument { Board = board, Date = new DateOnly(2026, 11, 25), ProgramVersion = "test" });
    }
}
