using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;
using BosFlow.TestKit;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace BosFlow.Cli.Tests.Kit;

/// <summary>A case whose footage is an exact photo of a printed board seen straight on, twice: reference and frame.</summary>
internal sealed class PhotographedBoard : IDisposable
{
    public const double MetresPerPixel = 0.2e-3;

    private const int Width = 900;
    private const int Height = 680;

    // Rendering is the same for every test of the process.
    private static readonly Lazy<GrayImage> Photo = new(Take);

    private readonly TemporaryFolder folder = new();

    public string Folder => folder.Root;

    /// <summary>Writes pictures, description and case.</summary>
    /// <param name="caseScaleMillimetres">Scale that the case tells, mm/px.</param>
    public static PhotographedBoard Make(double caseScaleMillimetres)
    {
        var made = new PhotographedBoard();
        made.WritePicture("reference.png");
        made.WritePicture("frame.png");
        made.Describe(seed: 3);
        File.WriteAllText(Path.Combine(made.Folder, "case.toml"), FormattableString.Invariant($"""
            [footage]
            frames = "frame.png"
            frame_rate_hz = 50.0
            [reference]
            image = "reference.png"
            [registration]
            motion = "none"
            [displacement]
            quality = "fast"
            [rig]
            lens_to_flow_mm = 1200.0
            flow_to_background_mm = 800.0
            background_mm_per_px = {caseScaleMillimetres}
            [board]
            description = "board.json"

            """));
        return made;
    }

    /// <summary>Writes the description of a board of the same layout with dots of a seed; the photo shows seed 3.</summary>
    public void Describe(ulong seed) =>
        BoardFile.Write(Path.Combine(Folder, "board.json"), new BoardDocument { Board = Board(seed), Date = new DateOnly(2026, 11, 25), ProgramVersion = "test" });

    public void Dispose() => folder.Dispose();

    private void WritePicture(string name)
    {
        using var picture = new Image<L8>(Width, Height);
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
                picture[x, y] = new L8((byte)Photo.Value[x, y]);
        }

        picture.SaveAsPng(folder.PathOf(name));
    }

    private static Board Board(ulong seed) => BoardMaker.Make(
        new BoardSettings { WidthMetres = 0.16, HeightMetres = 0.12, Sizes = [new DotSize(1e-3, 1)], Seed = seed, FiducialSideMetres = 12e-3 }, CancellationToken.None);

    private static GrayImage Take() => BoardPhotographer.Take(
        Board(3),
        new BoardPhotoSettings
        {
            Width = Width,
            Height = Height,
            Camera = new PlaneCamera { FocalPixels = 1500, CentreX = (Width - 1) / 2.0, CentreY = (Height - 1) / 2.0, Origin = (0.08, 0.06), Position = (0, 0, 1500 * MetresPerPixel) },
            BlurPixels = 0.8,
            Seed = 9,
        },
        CancellationToken.None);
}
