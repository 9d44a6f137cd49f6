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

    private static void Write(SmallCase small, double dotMetres)
    {
        Board board = BoardMaker.Make(new BoardSettings { WidthMetres = 0.2, HeightMetres = 0.15, Sizes = [new DotSize(dotMetres, 1)], WithFiducials = false }, CancellationToken.None);
        BoardFile.Write(small.PathOf("board.json"), new BoardDocument { Board = board, Date = new DateOnly(2026, 11, 25), ProgramVersion = "test" });
    }
}
