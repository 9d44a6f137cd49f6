using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Media.Fiducials;
using BosFlow.Speckle.Boards;
using BosFlow.Synthesis;

namespace BosFlow.Media.Tests.Fiducials;

public sealed class BoardScalingTests
{
    // The target of the study is 0.2 %; dots are good for a twentieth of it.
    private const double ByDots = 1e-4;
    private const double ByFiducials = 2e-3;
    private const int Width = 900;
    private const int Height = 680;

    private static readonly Board Board = BoardMaker.Make(
        new BoardSettings { WidthMetres = 0.16, HeightMetres = 0.12, Sizes = [new DotSize(1e-3, 1)], Seed = 3, FiducialSideMetres = 12e-3 }, CancellationToken.None);

    // From a little aside, dots about 5.3 px wide.
    private static readonly BoardPhotoSettings Settings = new()
    {
        Width = Width,
        Height = Height,
        Camera = new PlaneCamera
        {
            FocalPixels = 1600,
            CentreX = (Width - 1) / 2.0,
            CentreY = (Height - 1) / 2.0,
            Rotation = (0.16, -0.12, 0.03),
            Origin = (0.08, 0.06),
            Position = (0.001, 0.001, 0.3),
        },
        InkGainMetres = 0.04e-3,
        BlurPixels = 0.8,
        Seed = 9,
    };

    private static readonly Lazy<GrayImage> Taken = new(() => BoardPhotographer.Take(Board, Settings, CancellationToken.None));

    private static GrayImage Photo => Taken.Value;

    [Fact]
    public void Of_FiducialsAndDots_GivesTheExactScaleWithinItsUncertainty()
    {
        (BoardScale scale, double truth) = Read(Photo, Board);

        Assert.Equal(1, scale.MetresPerPixel / truth, ByDots);
        Assert.InRange(Math.Abs(scale.MetresPerPixel - truth), 0, 3 * scale.MetresPerPixelSigma);
        Assert.InRange(scale.RelativeSigma, 1e-6, ByDots);
        Assert.False(scale.IsWeak);
        Assert.InRange(scale.DotPatches, 20, scale.DotPatchesSought);
        Assert.Equal(Settings.Camera.TiltRadians, scale.TiltRadians, 3 * scale.TiltSigma);
    }

    [Fact]
    public void Of_FiducialsAlone_IsLessCertainAndStillCovered()
    {
        (BoardScale dots, _) = Read(Photo, Board);
        (BoardScale scale, double truth) = Read(Photo, Board with { Dots = [] });

        Assert.Equal(1, scale.MetresPerPixel / truth, ByFiducials);
        Assert.InRange(Math.Abs(scale.MetresPerPixel - truth), 0, 3 * scale.MetresPerPixelSigma);
        Assert.True(scale.RelativeSigma > dots.RelativeSigma);
        Assert.Equal(0, scale.DotPatches);
        Assert.Equal(0, scale.DotPatchesSought);
    }

    [Fact]
    public void Of_TwoFiducialsAlone_SaysThatTheyAreTooFew()
    {
        (BoardScale few, double truth) = Read(Photo, Board with { Dots = [] }, fiducials: 2);
        (BoardScale dots, double same) = Read(Photo, Board, fiducials: 2);

        Assert.Equal(2, few.Fiducials);
        Assert.Equal(truth, same);
        // The quarters of the other fiducials are looked for too, but what the finder did not see does not count.
        Assert.True(few.IsWeak);
        Assert.False(dots.IsWeak);
        Assert.Equal(1, dots.MetresPerPixel / truth, ByDots);
    }

    [Fact]
    public void Of_OneFiducial_GivesNone() => Assert.Null(Scale(Photo, Board, Corners(Photo, Board, 1)));

    [Fact]
    public void Of_AnotherBoardsDots_FindsThemNowhere()
    {
        Board other = BoardMaker.Make(Board.Settings with { Seed = 4 }, CancellationToken.None);

        (BoardScale scale, double truth) = Read(Photo, other);

        Assert.Equal(0, scale.DotPatches);
        Assert.InRange(scale.DotPatchesSought, 20, 1000);
        Assert.Equal(1, scale.MetresPerPixel / truth, ByFiducials);
    }

    [Theory]
    [InlineData(BoardTones.Inverted)]
    [InlineData(BoardTones.TwoTone)]
    public void Of_OtherTones_GivesTheExactScale(BoardTones tones)
    {
        Board board = BoardMaker.Make(Board.Settings with { Tones = tones }, CancellationToken.None);

        (BoardScale scale, double truth) = Read(BoardPhotographer.Take(board, Settings, CancellationToken.None), board);

        Assert.Equal(1, scale.MetresPerPixel / truth, ByDots);
        Assert.InRange(scale.DotPatches, 20, scale.DotPatchesSought);
    }

    [Fact]
    public void Of_AHalfHiddenBoard_LeavesOutWhatIsHidden()
    {
        float[] levels = Photo.Pixels.ToArray();
        for (int row = 0; row < Height; row++)
            levels.AsSpan((row * Width) + 330, 200).Fill(20);

        (BoardScale scale, double truth) = Read(new GrayImage(Width, Height, levels, 255), Board);

        Assert.True(scale.DotPatches < 0.8 * scale.DotPatchesSought);
        Assert.Equal(1, scale.MetresPerPixel / truth, 2 * ByDots);
        Assert.InRange(Math.Abs(scale.MetresPerPixel - truth), 0, 3 * scale.MetresPerPixelSigma);
    }

    [Fact]
    public void Of_APictureThroughAKnownLens_GivesTheScaleOfTheIdealPicture()
    {
        // One radial term of -4 % at half the width; the photographer's own term and the lens's formula are the same.
        const double radial = -0.04;
        double focal = Settings.Camera.FocalPixels;
        double radius = Width / 2.0;
        PlaneCamera camera = Settings.Camera with { Radial = radial, Radius = radius };
        GrayImage bent = BoardPhotographer.Take(Board, Settings with { Camera = camera }, CancellationToken.None);
        var lens = new LensModel(new LensParameters
        {
            Kind = LensKind.Pinhole, Width = Width, Height = Height, FocalX = focal, FocalY = focal, CentreX = camera.CentreX, CentreY = camera.CentreY,
            Radial1 = radial * focal * focal / (radius * radius),
        });
        IReadOnlyList<PlanePoint> corners = Corners(bent, Board, int.MaxValue);

        BoardScale scale = BoardScaling.Of(bent, Board, corners, lens, CancellationToken.None)!;

        Assert.Equal(1, scale.MetresPerPixel / Truth(corners), ByDots);
        Assert.InRange(scale.RelativeSigma, 1e-6, ByDots);
    }

    private static (BoardScale Scale, double Truth) Read(GrayImage picture, Board board, int fiducials = int.MaxValue)
    {
        IReadOnlyList<PlanePoint> corners = Corners(picture, board, fiducials);
        return (Scale(picture, board, corners)!, Truth(corners));
    }

    private static BoardScale? Scale(GrayImage picture, Board board, IReadOnlyList<PlanePoint> corners) => BoardScaling.Of(picture, board, corners, null, CancellationToken.None);

    private static IReadOnlyList<PlanePoint> Corners(GrayImage picture, Board board, int fiducials) =>
        FiducialConsensus.Of([.. FiducialFinder.Find(picture).Take(fiducials)], board.Fiducials, picture.Width, picture.Height);

    // Of the exact camera without its lens, over the fiducials that were found.
    private static double Truth(IReadOnlyList<PlanePoint> corners)
    {
        PlaneMap map = Settings.Camera.ToMap();
        return 1 / Math.Sqrt(corners.Average(corner => map.AreaScaleAt(corner.X, corner.Y)));
    }
}
