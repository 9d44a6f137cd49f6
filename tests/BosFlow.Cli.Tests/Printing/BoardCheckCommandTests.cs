using System.Text.Json.Nodes;
using BosFlow.Cli.Tests.Kit;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;
using BosFlow.TestKit;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace BosFlow.Cli.Tests.Printing;

public sealed class BoardCheckCommandTests : IDisposable
{
    private static readonly Board Board = BoardMaker.Make(
        new BoardSettings { WidthMetres = 0.08, HeightMetres = 0.06, Sizes = [new DotSize(1e-3, 1)], Seed = 3, FiducialSideMetres = 10e-3 },
        CancellationToken.None);

    private static readonly Lazy<Footage.GrayImage> Photo = new(() => BoardPhotographer.Take(
        Board,
        new BoardPhotoSettings
        {
            Width = 700,
            Height = 540,
            Camera = new Camera.PlaneCamera { FocalPixels = 1000, CentreX = 349.5, CentreY = 269.5, Rotation = (0.1, 0.08, 0), Origin = (0.04, 0.03), Position = (0, 0, 0.13) },
        },
        CancellationToken.None));

    private readonly TemporaryFolder folder = new();

    public BoardCheckCommandTests()
    {
        BoardFile.Write(folder.PathOf("board.json"), new BoardDocument { Board = Board, Date = new DateOnly(2026, 11, 25), ProgramVersion = "test" });
        Footage.GrayImage photo = Photo.Value;
        using var picture = new Image<L8>(photo.Width, photo.Height);
        picture.ProcessPixelRows(rows =>
        {
            for (int y = 0; y < photo.Height; y++)
            {
                for (int x = 0; x < photo.Width; x++)
                    rows.GetRowSpan(y)[x] = new L8((byte)photo[x, y]);
            }
        });
        picture.SaveAsPng(folder.PathOf("photo.png"));
    }

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Check_GoodPrint_TellsAndDraws()
    {
        ProcessResult run = await CliRun.InsideAsync(folder.Root, "print", "--check", "photo.png", "--board", "board.json", "--output", "check.png");
        ProcessResult again = await CliRun.InsideAsync(folder.Root, "print", "--check", "photo.png", "--board", "board.json", "--json", "--ruler-x-mm", "60.1");

        Assert.True(run.ExitCode == ExitCode.Done, run.Error + run.Output);
        Assert.Contains("Verdict: OK. Not decided: Scale.", run.Output, StringComparison.Ordinal);
        Assert.True(File.Exists(folder.PathOf("check.png")));
        JsonNode document = JsonNode.Parse(again.Output)!;
        Assert.Equal(1, (double)document["sizes"]![0]!["measured_mm"]!, 0.01);
        Assert.Equal(60.1 / (Board.Rulers.Single(ruler => !ruler.IsVertical).Length * 1e3), (double)document["scale_x"]!, 1e-9);
    }

    [Theory]
    [InlineData("--check needs the description of the board", "--check", "photo.png")]
    [InlineData("--board belongs to a check", "--board", "board.json", "--dot-mm", "1")]
    [InlineData("give --output a name that ends with .png", "--check", "photo.png", "--board", "board.json", "--output", "check.pdf")]
    [InlineData("measure the same thing", "--check", "photo.png", "--board", "board.json", "--scan-dpi", "300", "--ruler-x-mm", "50")]
    [InlineData("cannot be: that ruler is", "--check", "photo.png", "--board", "board.json", "--ruler-x-mm", "5")]
    public async Task Check_BadOptions_SaysWhatToDo(string sentence, params string[] options)
    {
        ProcessResult run = await CliRun.InsideAsync(folder.Root, ["print", .. options]);

        Assert.Equal(ExitCode.BadInput, run.ExitCode);
        Assert.Contains(sentence, run.Error, StringComparison.Ordinal);
    }
}
