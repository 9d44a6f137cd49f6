using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Media.Fiducials;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Media.Tests.Fiducials;

/// <summary>A small board and exact photos of it.</summary>
internal static class BoardPhotos
{
    public const int Width = 800;
    public const int Height = 610;

    public static Board Board { get; } = BoardMaker.Make(
        new BoardSettings { WidthMetres = 0.10, HeightMetres = 0.074, Sizes = [new DotSize(1e-3, 1)], Seed = 3, FiducialSideMetres = 12e-3 },
        CancellationToken.None);

    /// <summary>A photo from a little aside, dots about 7.5 px wide.</summary>
    public static BoardPhotoSettings Settings => new()
    {
        Width = Width,
        Height = Height,
        Camera = new PlaneCamera
        {
            FocalPixels = 1500,
            CentreX = (Width - 1) / 2.0,
            CentreY = (Height - 1) / 2.0,
            Rotation = (0.12, -0.1, 0.03),
            Origin = (0.05, 0.037),
            Position = (0.001, 0.001, 0.2),
        },
        InkGainMetres = 0.04e-3,
        BlurPixels = 0.8,
        Seed = 9,
    };

    /// <summary>The photo by <see cref="Settings"/>, taken once.</summary>
    public static GrayImage Usual => Once.Value;

    private static readonly Lazy<GrayImage> Once = new(() => Take(Settings));

    public static GrayImage Take(BoardPhotoSettings settings) => BoardPhotographer.Take(Board, settings, CancellationToken.None);

    public static BoardCheck Check(GrayImage photo, Board board, BoardCheckSettings? settings = null)
    {
        IReadOnlyList<FiducialSighting> sightings = FiducialFinder.Find(photo);
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(sightings, board.Fiducials, photo.Width, photo.Height);
        return BoardChecker.Check(photo, board, sightings, corners, settings ?? new BoardCheckSettings(), CancellationToken.None);
    }
}
