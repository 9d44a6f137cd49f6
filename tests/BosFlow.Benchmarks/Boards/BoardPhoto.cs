using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Media.Fiducials;
using BosFlow.Speckle;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Benchmarks.Boards;

/// <summary>A random board, a random photo of it, and what the check reads.</summary>
/// <param name="Truth">Printer, camera and light.</param>
/// <param name="Board">The board.</param>
/// <param name="Check">The check.</param>
internal sealed record BoardPhoto(BoardPhotoSettings Truth, Board Board, BoardCheck Check)
{
    private const int Width = 2400;
    private const int Height = 1800;

    /// <summary>Draws one: tilt to 20 degrees, blur 0.5 to 2 px, noise to 1 %, light fall-off to 40 %, ink gain -0.05 to 0.15 mm, printer within 1 %.</summary>
    /// <param name="number">Which one.</param>
    /// <param name="dotPixels">About how wide a dot is in the photo, px.</param>
    public static BoardPhoto Draw(int number, double dotPixels)
    {
        var random = new SeededRandom(SeededRandom.PartSeed(20261125, number, 0));
        double Between(double low, double high) => low + ((high - low) * random.NextUniform());
        const double dot = 1e-3;
        double pixelsPerMetre = dotPixels / dot;
        Board board = BoardMaker.Make(
            new BoardSettings
            {
                WidthMetres = Math.Min(0.28, 0.86 * Width / pixelsPerMetre),
                HeightMetres = Math.Min(0.20, 0.82 * Height / pixelsPerMetre),
                Sizes = [new DotSize(dot, 1)],
                Seed = (ulong)number,
                Coverage = Between(0.25, 0.4),
            },
            CancellationToken.None);
        double focal = Between(0.75, 3) * Width;
        double tilt = Between(0, 20) * Math.PI / 180;
        double towards = Between(0, 2 * Math.PI);
        double distance = focal / pixelsPerMetre;
        var camera = new PlaneCamera
        {
            FocalPixels = focal,
            CentreX = ((Width - 1) / 2.0) + (0.005 * Width * random.NextNormal()),
            CentreY = ((Height - 1) / 2.0) + (0.005 * Width * random.NextNormal()),
            Rotation = (tilt * Math.Cos(towards), tilt * Math.Sin(towards), Between(-0.1, 0.1)),
            Origin = (board.Settings.WidthMetres / 2, board.Settings.HeightMetres / 2),
            Position = (Between(-0.02, 0.02) * distance * Width / focal, Between(-0.02, 0.02) * distance * Width / focal, distance),
            PrintScaleX = 1 + Between(-0.01, 0.01),
            PrintScaleY = 1 + Between(-0.01, 0.01),
            Radial = 0.01 * random.NextNormal(),
            Radius = Width / 2.0,
        };
        var truth = new BoardPhotoSettings
        {
            Camera = camera,
            Width = Width,
            Height = Height,
            InkGainMetres = Between(-0.05e-3, 0.15e-3),
            BlurPixels = Between(0.5, Math.Min(2, dotPixels / 5)),
            Noise = Between(0.001, 0.01),
            PaperLight = Between(0.4, 0.85),
            InkShare = Between(0.04, 0.15),
            FallOff = Between(0, 0.4),
            Slant = Between(-0.3, 0.3),
            Seed = (ulong)number,
        };
        GrayImage photo = BoardPhotographer.Take(board, truth, CancellationToken.None);
        IReadOnlyList<FiducialSighting> sightings = FiducialFinder.Find(photo);
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(sightings, board.Fiducials, Width, Height);
        return new BoardPhoto(truth, board, BoardChecker.Check(photo, board, sightings, corners, new BoardCheckSettings(), CancellationToken.None));
    }
}
