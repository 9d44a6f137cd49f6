using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Results.Boards;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class PrintCommandTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    [Fact]
    public async Task Print_OneSheet_WritesDrawingAndDescriptionAndSaysWhatToDo()
    {
        ProcessResult result = await PrintAsync("--paper", "a4", "--dot-mm", "2.5", "--seed", "5", "--output", "board.pdf", "--date", "2026-11-25");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        Assert.Equal(["board.pdf", "board.json", "board.dots.csv"], result.Output.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries).Select(Path.GetFileName));
        Assert.Equal(["board.dots.csv", "board.json", "board.pdf"], FilesThere());
        Assert.Contains("Board 194 x 281 mm, pattern 182 x 262 mm: ", result.Error, StringComparison.Ordinal);
        Assert.Contains("35.0 % covered", result.Error, StringComparison.Ordinal);
        Assert.Contains("Print at 100 % (no \u201cfit to page\u201d) on matt paper, then lay a steel rule along both rulers.", result.Error, StringComparison.Ordinal);
        Assert.Contains("Caution: ", result.Error, StringComparison.Ordinal);
        BoardDocument document = BoardFile.Read(folder.PathOf("board.json"));
        Assert.Equal(new DateOnly(2026, 11, 25), document.Date);
        Assert.Equal(5ul, document.Board.Settings.Seed);
        Assert.Single(document.Sheets!.Sheets);
    }

    [Fact]
    public async Task Print_SameOptionsAndDate_SameBytes()
    {
        string[] options = ["--paper", "A4", "--dot-mm", "2.5", "--date", "2026-11-25", "--contours", "cut.svg"];
        await PrintAsync([.. options, "--output", "board.pdf", "--output", "board.svg"]);
        Dictionary<string, byte[]> first = FilesThere().ToDictionary(name => name, name => File.ReadAllBytes(folder.PathOf(name)));

        ProcessResult again = await PrintAsync([.. options, "--output", "board.pdf", "--output", "board.svg", "--force"]);

        Assert.True(again.ExitCode == ExitCode.Done, again.Error);
        Assert.Equal(5, first.Count);
        Assert.All(first, file => Assert.Equal(file.Value, File.ReadAllBytes(folder.PathOf(file.Key))));
    }

    [Fact]
    public async Task Print_TiledSvg_OneFileASheetAndTheAssembly()
    {
        ProcessResult result = await PrintAsync("--paper", "A4", "--board-mm", "300x200", "--dot-mm", "3", "--fiducial-mm", "30", "--output", "wall.svg", "--json");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        JsonNode document = JsonNode.Parse(result.Output)!;
        Assert.Equal("print", (string?)document["document"]);
        Assert.Equal(2, (int)document["sheets"]!);
        Assert.Equal(
            ["wall-assembly.svg", "wall-A1.svg", "wall-A2.svg", "wall.json", "wall.dots.csv"],
            document["files"]!.AsArray().Select(file => Path.GetFileName((string)file!["path"]!)));
        Assert.Equal("A2", (string?)document["files"]![2]!["sheet"]);
        Assert.Equal([3.0], document["dot_mm"]!.AsArray().Select(size => (double)size!));
        Assert.Contains("2 sheets of A4", result.Error, StringComparison.Ordinal);
        Assert.Contains("Caution: Knives", result.Error, StringComparison.Ordinal);
        Assert.Equal(5, FilesThere().Length);
    }

    [Fact]
    public async Task Print_DotsInPixels_ScaleFromTheCaseWithoutFootage()
    {
        folder.Write("case.toml", "[rig]\nlens_to_flow_mm = 1200.0\nflow_to_background_mm = 800.0\nbackground_mm_per_px = 0.5\n");

        ProcessResult result = await PrintAsync("--dot-px", "4", "--case", "case.toml", "--output", "board.pdf", "--json");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        Assert.Equal(2.0, (double)JsonNode.Parse(result.Output)!["dot_mm"]![0]!);
        Assert.Contains("0.5 mm of the board a pixel: dots of 2 mm.", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Print_DotsInPixels_ScaleFromLensAndDistances()
    {
        // M = f / (Z - f) = 16 / 1984, S = 1.55 um / M = 0.1922 mm: 10 px are 1.922 mm (thin lens, by hand).
        folder.Write("case.toml", "[rig]\nlens_to_flow_mm = 1200.0\nflow_to_background_mm = 800.0\nfocal_length_mm = 16.0\npixel_pitch_um = 1.55\n");

        ProcessResult result = await PrintAsync("--dot-px", "10", "--case", ".", "--output", "board.pdf", "--json");

        Assert.Equal(1.922, (double)JsonNode.Parse(result.Output)!["dot_mm"]![0]!, 1e-9);
    }

    [Fact]
    public async Task Print_WithoutDate_TakesTodayOfTheClock()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        CommandEnvironment environment = Talking.Environment(output, error) with { WorkingDirectory = folder.Root, Clock = new StandingClock() };

        int code = await Program.RunAsync(["print", "--dot-mm", "2.5", "--output", "board.pdf"], environment, CancellationToken.None);

        Assert.True(code == ExitCode.Done, error.ToString());
        Assert.Equal(new DateOnly(2031, 2, 3), BoardFile.ReadWithoutDots(folder.PathOf("board.json")).Date);
    }

    [Fact]
    public async Task Print_FilesThere_RefusedAndLeftAlone()
    {
        folder.Write("board.json", "mine");

        ProcessResult result = await PrintAsync("--dot-mm", "2.5", "--output", "board.pdf");

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains("board.json exists already and nothing is overwritten; give another --output, or --force to replace.", result.Error, StringComparison.Ordinal);
        Assert.Equal(["board.json"], FilesThere());
        Assert.Equal("mine", await File.ReadAllTextAsync(folder.PathOf("board.json")));
    }

    [Fact]
    public async Task Print_Cancelled_LeavesNothing()
    {
        using var cancelled = new CancellationTokenSource();
        await cancelled.CancelAsync();

        ProcessResult result = await CliRun.InsideAsync(folder.Root, cancelled.Token, "print", "--dot-mm", "2.5", "--output", "board.pdf");

        Assert.Equal(ExitCode.Interrupted, result.ExitCode);
        Assert.Empty(FilesThere());
    }

    [Theory]
    [InlineData("The size of the dots is missing; give --dot-mm, such as --dot-mm 1.0, or --dot-px with --case.", "--output", "b.pdf")]
    [InlineData("bosflow print needs --output FILE, such as --output board.pdf (or .svg, .png), or --contours FILE.svg.", "--dot-mm", "1")]
    [InlineData("--output b.tif has no ending that is known; give .pdf, .svg or .png.", "--dot-mm", "1", "--output", "b.tif")]
    [InlineData("--contours b.pdf is no SVG; give a name that ends in .svg.", "--dot-mm", "1", "--contours", "b.pdf")]
    [InlineData("--paper A5 is not known; give A4, A3, A2, A1, A0, Letter or Tabloid. Did you mean A4?", "--dot-mm", "1", "--paper", "A5", "--output", "b.pdf")]
    [InlineData("--dot-mm 1,2:0.5 cannot be read; give one size, several as 0.8,1.6, or with their shares as 0.8:0.7,1.6:0.3.", "--dot-mm", "1,2:0.5", "--output", "b.pdf")]
    [InlineData("The shares of the dot sizes sum to 0.9; they must sum to 1.", "--dot-mm", "1:0.5,2:0.4", "--output", "b.pdf")]
    [InlineData("--dot-px needs --case FILE: the [rig] in it says how many mm of the board a pixel sees.", "--dot-px", "3", "--output", "b.pdf")]
    [InlineData("--dot-mm and --dot-px exclude each other; give one of them.", "--dot-px", "3", "--dot-mm", "1", "--output", "b.pdf")]
    [InlineData("--board-mm 1200 cannot be read; give width x height in mm without spaces, such as 1200x800.", "--dot-mm", "1", "--board-mm", "1200", "--output", "b.pdf")]
    [InlineData("--date 25.11.2026 is no date; give year, month and day, such as 2026-11-25.", "--dot-mm", "1", "--date", "25.11.2026", "--output", "b.pdf")]
    [InlineData("at 600 dpi the smallest is 0.212 mm", "--dot-mm", "0.2", "--output", "b.pdf")]
    [InlineData("--margin-mm 150 is not possible on A4; give 0 or more, and less than half of its shorter side.", "--dot-mm", "1", "--margin-mm", "150", "--output", "b.pdf")]
    [InlineData("--dpi is for PNG only; give an --output that ends in .png too, or leave it out.", "--dot-mm", "1", "--dpi", "300", "--output", "b.pdf")]
    [InlineData("give --dpi 1177 or less, or a PDF.", "--dot-mm", "1", "--dpi", "1200", "--paper", "A0", "--output", "b.png")]
    [InlineData("Dots of 0.4 mm are smaller than the cutter makes, 0.5 mm (--cutter-mm); give larger dots or a finer cutter.", "--dot-mm", "0.4", "--contours", "c.svg")]
    [InlineData("--cutter-mm is for --contours only; give that too, or leave it out.", "--dot-mm", "1", "--cutter-mm", "1", "--output", "b.pdf")]
    [InlineData("A coverage of 0.6 does not fit", "--dot-mm", "1", "--coverage", "0.6", "--output", "b.pdf")]
    [InlineData("would be written 2 times; give each output a name of its own.", "--dot-mm", "1", "--output", "b.svg", "--contours", "b.svg")]
    [InlineData("make it first, or give another path.", "--dot-mm", "1", "--output", "nowhere/b.pdf")]
    [InlineData("--tones grey is not known; give dark, inverted or two-tone.", "--dot-mm", "1", "--tones", "grey", "--output", "b.pdf")]
    public async Task Print_BadOptions_OneSentenceAndNothingWritten(string sentence, params string[] options)
    {
        ProcessResult result = await PrintAsync(options);

        Assert.Equal(ExitCode.BadInput, result.ExitCode);
        Assert.Contains(sentence, result.Error, StringComparison.Ordinal);
        Assert.Empty(FilesThere());
    }

    [Fact]
    public async Task Print_SeveralProblems_AllTold()
    {
        ProcessResult result = await PrintAsync("--dot-mm", "x", "--paper", "A9", "--output", "b.doc");

        Assert.Equal(3, result.Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task Print_Contours_WarnsOfThinWebsAndOfLasers()
    {
        ProcessResult result = await PrintAsync("--board-mm", "200x150", "--dot-mm", "2", "--contours", "cut.svg");

        Assert.True(result.ExitCode == ExitCode.Done, result.Error);
        Assert.Equal(["cut.dots.csv", "cut.json", "cut.svg"], FilesThere());
        Assert.Contains("warning: Webs between dots may be 0.2 mm thin", result.Error, StringComparison.Ordinal);
        Assert.Contains("never cut PVC or vinyl", result.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("fit to page", result.Error, StringComparison.Ordinal);
    }

    public void Dispose() => folder.Dispose();

    private Task<ProcessResult> PrintAsync(params string[] options) => CliRun.InsideAsync(folder.Root, ["print", .. options]);

    private string[] FilesThere() => [.. Directory.GetFiles(folder.Root).Select(path => Path.GetFileName(path)!).Where(name => name != "case.toml").Order(StringComparer.Ordinal)];

    private sealed class StandingClock : TimeProvider
    {
        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

        public override DateTimeOffset GetUtcNow() => new(2031, 2, 3, 12, 0, 0, TimeSpan.Zero);
    }
}
