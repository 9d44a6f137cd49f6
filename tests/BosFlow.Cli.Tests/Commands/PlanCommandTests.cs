using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

/// <summary>The command plan as a user meets it.</summary>
public sealed class PlanCommandTests : IDisposable
{
    private static readonly string Onboard = Repository.PathOf("docs", "examples", "onboard-plume.toml");
    private static readonly string Candle = Repository.PathOf("docs", "examples", "bench-candle.toml");

    private static readonly string[] Rig =
    [
        "--lens-to-flow-mm", "1000", "--flow-to-background-mm", "600", "--focal-length-mm", "50", "--pixel-pitch-um", "5.9", "--f-number", "8",
        "--picture-width-px", "3000", "--picture-height-px", "2000",
    ];

    private readonly TemporaryFolder folder = new();

    [Fact]
    public async Task Plan_CaseWithoutFootage_PrintsTheSheetWithCautionsAndPrintCommand()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Onboard, "--quiet");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Empty(result.Error);
        string[] lines = result.Output.Split(Environment.NewLine);
        Assert.All(
            new[] { "View", "Sensitivity", "Expected flow", "Sharpness", "Resolution", "Pattern", "Motion", "Recommended", "Print the board", "Cautions" },
            title => Assert.Contains(title, lines));
        Assert.Contains(lines, line => line.StartsWith("  bosflow print --board-mm 450x300 --dot-mm ", StringComparison.Ordinal));
        Assert.Contains("Ratio to the noise, one frame", result.Output, StringComparison.Ordinal);
        Assert.All(lines, line => Assert.True(line.Length <= 150, line));
    }

    [Fact]
    public async Task Plan_OptionsAlone_GivesTheSameAsTheFile()
    {
        ProcessResult file = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--json");
        ProcessResult options = await CliRun.InsideAsync(
            folder.Root,
            ["plan", .. Rig, "--exposure-ms", "4", "--noise-percent", "0.8", "--expected", "plume", "--half-width-mm", "10", "--temperature-c", "300", "--speed-m-per-s", "0.8", "--ambient-temperature-c", "21", "--json"]);

        Assert.Equal(ExitCode.Done, options.ExitCode);
        Assert.Equal(file.Output, options.Output);
    }

    [Fact]
    public async Task Plan_WithoutAFlow_SaysWhatToGiveAndWhatCouldBeSeen()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, ["plan", .. Rig]);

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Contains("None is given. With [expected] kind = \"jet\" (or --expected jet)", result.Output, StringComparison.Ordinal);
        Assert.Matches("Smallest plume, one frame +[0-9.]+ K", result.Output);
        Assert.Matches("Smear by vibration +- +exposure_ms, vibration_mrad and vibration_hz are not given: no smear", result.Output);
    }

    [Fact]
    public async Task Plan_AsJson_IsOneDocumentInNamedUnits()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--json");

        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal("plan", (string?)document["document"]);
        Assert.Equal(1, (int)document["version"]!);

        // Thin lens, by hand: image distance 1 / (1 / 50 - 1 / 1600) mm = 51.6129 mm; 5.9 um * 1600 / 51.6129 = 0.1829 mm.
        Assert.Equal(0.1829e-3, (double)document["board_scale_m_per_px"]!, 1e-7);
        Assert.Equal(600 / 0.1829, (double)document["px_per_rad"]!, 0.6);
        Assert.Null(document["vibration_px"]);
        Assert.Equal("good", (string?)document["flow"]!["verdict"]);
    }

    [Fact]
    public async Task Plan_WithOutput_WritesPageDocumentAndPictureAndNeverOverwrites()
    {
        ProcessResult first = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--output", "my plan");
        ProcessResult second = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--output", "my plan");
        ProcessResult forced = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--output", "my plan", "--force");

        string path = Path.Combine(folder.Root, "my plan");
        Assert.Equal(ExitCode.Done, first.ExitCode);
        Assert.Equal(["plan.html", "plan.json", "plan.png"], Directory.EnumerateFiles(path).Select(Path.GetFileName).Order());
        Assert.Equal(ExitCode.BadInput, second.ExitCode);
        Assert.Equal($"error: {path} holds plan.html, plan.json, plan.png already and nothing is overwritten; give another --output, or --force to replace.{Environment.NewLine}", second.Error);
        Assert.Equal(ExitCode.Done, forced.ExitCode);
        Assert.Equal("plan", (string?)JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(path, "plan.json")))!["document"]);
    }

    [Fact]
    public async Task Plan_ImpossibleGeometry_IsRefusedWithTheOptionAndWithoutFiles()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--focal-length-mm", "2000", "--output", "never");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Equal($"error: --focal-length-mm: rig.focal_length_mm = 2000 is not less than the distance to the background, 1600 mm; no lens can focus there, so check both.{Environment.NewLine}", result.Error);
        Assert.Empty(result.Output);
        Assert.False(Directory.Exists(Path.Combine(folder.Root, "never")));
    }

    [Fact]
    public async Task Plan_FlowBehindTheBoard_IsOneSentence()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--flow-to-background-mm", "-200");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Equal($"error: --flow-to-background-mm -200 is out of range; give a number greater than 0 and at most 10000000 mm.{Environment.NewLine}", result.Error);
    }

    [Fact]
    public async Task Plan_SweepOfOneQuantity_IsATableWithTwelveSteps()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--sweep", "f_number=2.8:22");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        string[] lines = result.Output.Split(Environment.NewLine);
        Assert.Equal("Over the f-number", lines[0]);
        Assert.Matches("^  f_number +displacement \\(px\\) +noise \\(px\\) +ratio", lines[1]);
        Assert.StartsWith("  2.8 ", lines[2], StringComparison.Ordinal);
        Assert.StartsWith("  22 ", lines[13], StringComparison.Ordinal);
        Assert.Contains("Cautions", lines);
    }

    [Fact]
    public async Task Plan_SweepAndSearchWithOutput_WriteTheirPictures()
    {
        ProcessResult result = await CliRun.InsideAsync(
            folder.Root, "plan", Onboard, "--sweep", "f_number=2.8:22:4", "--sweep", "split=0.2:0.8:3", "--optimise", "--output", "plan", "--json", "--quiet");

        Assert.Equal(ExitCode.Done, result.ExitCode);
        Assert.Equal(["optimise.png", "plan.html", "plan.json", "plan.png", "sweep.png"], Directory.EnumerateFiles(Path.Combine(folder.Root, "plan")).Select(Path.GetFileName).Order());
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal(3, document["sweep"]!["ratio"]!.AsArray().Count);
        JsonNode best = Assert.Single(document["optimise"]!["front"]!.AsArray(), rig => (bool)rig!["best"]!)!;
        Assert.True((double)best["lens_to_flow_m"]! + (double)best["flow_to_background_m"]! <= 1.9 + 1e-9);
        Assert.True((double)best["board_width_m"]! <= 0.5 + 1e-9);
        Assert.True((double)best["view_width_m"]! >= 0.18 - 1e-9);
    }

    [Fact]
    public async Task Plan_NoRigWithinTheLimits_TellsWhatStandsInTheWay()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Onboard, "--optimise", "--least-view-width-mm", "400", "--largest-board-width-mm", "300");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.StartsWith("error: No rig is within the limits; the nearest one fails as follows.", result.Error, StringComparison.Ordinal);
        Assert.True(result.Error.Split(Environment.NewLine).Length > 2);
        Assert.Empty(result.Output);
    }

    [Fact]
    public async Task Plan_WrongSweep_IsRefusedBeforeAnything()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", Candle, "--sweep", "f_number=22:2.8", "--output", "never");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Equal($"error: --sweep f_number=22:2.8 runs backwards; write f_number=2.8:22.{Environment.NewLine}", result.Error);
        Assert.False(Directory.Exists(Path.Combine(folder.Root, "never")));
    }

    [Fact]
    public async Task Plan_BoardIsPrintedAlready_TakesItsSizeAndDots()
    {
        string file = folder.Write("case.toml", await File.ReadAllTextAsync(Candle) + "[board]\ndescription = \"board.json\"\n");
        ProcessResult unprinted = await CliRun.InsideAsync(folder.Root, "plan", file);
        Board board = BoardMaker.Make(new BoardSettings { WidthMetres = 0.18, HeightMetres = 0.12, Sizes = [new DotSize(0.0006, 1)] }, CancellationToken.None);
        BoardFile.Write(Path.Combine(folder.Root, "board.json"), new BoardDocument { Board = board, Date = new DateOnly(2026, 11, 25), ProgramVersion = "1.2.3" });

        ProcessResult printed = await CliRun.InsideAsync(folder.Root, "plan", file);
        ProcessResult option = await CliRun.InsideAsync(folder.Root, "plan", file, "--dot-mm", "0.7");

        Assert.Matches("Board +549 x 366 mm +as large as the view", unprinted.Output);
        Assert.Matches("Board +180 x 120 mm +as given", printed.Output);
        Assert.Matches("Dot on the paper +0.6 mm +as given", printed.Output);
        Assert.Matches("Dot on the paper +0.7 mm +as given", option.Output);
    }

    [Fact]
    public async Task Plan_MissingCaseFile_SaysSo()
    {
        ProcessResult result = await CliRun.InsideAsync(folder.Root, "plan", "no-such.toml");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("There is no case file", result.Error, StringComparison.Ordinal);
    }

    public void Dispose() => folder.Dispose();
}
