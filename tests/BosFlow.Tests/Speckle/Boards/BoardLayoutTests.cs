using BosFlow.Speckle.Boards;
using CsCheck;

namespace BosFlow.Tests.Speckle.Boards;

public sealed class BoardLayoutTests
{
    private static readonly Gen<BoardSettings> AnyBoard =
        from width in Gen.Double[0.02, 2]
        from height in Gen.Double[0.02, 2]
        from share in Gen.Double[0.05, 0.99]
        select new BoardSettings
        {
            WidthMetres = width,
            HeightMetres = height,
            Sizes = [new(Math.Min(width, height) / 60, 1)],
            FiducialSideMetres = share * Math.Min(width, height) / 5,
            Coverage = 0.05,
        };

    [Fact]
    public void Make_AnyBoard_HasRingOfFiducialsThatDoNotTouch() => AnyBoard.Sample(settings =>
    {
        Board board = BoardMaker.Make(settings, CancellationToken.None);

        double zone = board.Fiducials[0].Side + (2 * board.FiducialQuietZone);
        Assert.Equal(Enumerable.Range(0, board.Fiducials.Count), board.Fiducials.Select(fiducial => fiducial.Id));
        for (int i = 0; i < board.Fiducials.Count; i++)
        {
            Fiducial mark = board.Fiducials[i];
            Assert.InRange(mark.X, board.Pattern.Left + (zone / 2) - 1e-7, board.Pattern.Right - (zone / 2) + 1e-7);
            Assert.InRange(mark.Y, board.Pattern.Top + (zone / 2) - 1e-7, board.Pattern.Bottom - (zone / 2) + 1e-7);
            Assert.All(board.Fiducials.Take(i), other => Assert.True(Math.Max(Math.Abs(mark.X - other.X), Math.Abs(mark.Y - other.Y)) >= zone));
        }
    }, iter: 30);

    [Fact]
    public void Make_AnyBoard_KeepsLegendAndRulersOutOfThePattern() => AnyBoard.Sample(settings =>
    {
        Board board = BoardMaker.Make(settings, CancellationToken.None);

        Assert.True(board.Pattern.Right <= settings.WidthMetres + 1e-12 && board.Pattern.Bottom <= settings.HeightMetres + 1e-12);
        Assert.True(board.Legend.Top >= board.Pattern.Bottom && board.Legend.Bottom <= settings.HeightMetres + 1e-12);
        Assert.All(board.Rulers, ruler =>
        {
            Assert.Equal(Math.Round(ruler.Length * 100), ruler.Length * 100, 1e-9);
            Assert.InRange(ruler.Length, 0.02, 0.2);
            if (ruler.IsVertical)
                Assert.True(ruler.X > 0 && ruler.X < board.Pattern.Left && ruler.Y + ruler.Length < settings.HeightMetres);
            else
                Assert.True(ruler.Y > board.Pattern.Bottom && ruler.Y < board.Legend.Top && ruler.X + ruler.Length < settings.WidthMetres);
        });
    }, iter: 30);

    [Fact]
    public void Make_A4Board_HasThreeFiducialsASideAndLongRulers()
    {
        Board board = BoardMaker.Make(BoardMakerTests.A4(), CancellationToken.None);

        Assert.Equal(8, board.Fiducials.Count);
        Assert.Equal(0.016, board.Fiducials[0].Side, 1e-12);
        Assert.Equal(0.002, board.FiducialQuietZone, 1e-12);
        Assert.Equal([0.17, 0.2], board.Rulers.Select(ruler => ruler.Length));
    }

    [Fact]
    public void Make_SmallBoardForItsDots_GivesFiducialsWhatRoomThereIs()
    {
        Board board = BoardMaker.Make(BoardMakerTests.A4() with { Sizes = [new(4e-3, 1)], Coverage = 0.3 }, CancellationToken.None);

        // A third of the shorter side of 182 mm, less the white zones.
        Assert.Equal(0.0485, board.Fiducials[0].Side, 1e-12);
        Assert.Equal(4, board.Fiducials.Count);
    }

    [Fact]
    public void Problems_DotsThatLeaveNoCellOfADotsWidth_NameTheLargestFiducial() =>
        Assert.Contains(
            (BoardMakerTests.A4() with { Sizes = [new(10e-3, 1)] }).Problems(),
            problem => problem.Contains("the largest are 48.533 mm", StringComparison.Ordinal));

    [Fact]
    public void Make_LargeBoard_SpacesFiducialsByAtMostSomeHundredDots()
    {
        var settings = new BoardSettings { WidthMetres = 1.2, HeightMetres = 0.8, Sizes = [new(1e-3, 1)], Coverage = 0.01 };

        IReadOnlyList<Fiducial> ring = BoardMaker.Make(settings, CancellationToken.None).Fiducials;

        for (int i = 0; i < ring.Count; i++)
        {
            Fiducial next = ring[(i + 1) % ring.Count];
            Assert.InRange(Math.Abs(next.X - ring[i].X) + Math.Abs(next.Y - ring[i].Y), 0.02, 0.2501);
        }
    }

    [Fact]
    public void Make_HugeBoardOfTinyDots_NeedsNoMoreIdentitiesThanThereAre()
    {
        var settings = new BoardSettings { WidthMetres = 20, HeightMetres = 20, Sizes = [new(1e-3, 1)], Coverage = 1e-5 };

        Assert.InRange(BoardMaker.Make(settings, CancellationToken.None).Fiducials.Count, 200, FiducialCode.Count);
    }

    [Fact]
    public void Make_TinyBoard_HasNeitherStripsNorRulers()
    {
        var settings = new BoardSettings { WidthMetres = 0.03, HeightMetres = 0.03, Sizes = [new(1e-3, 1)], WithFiducials = false };

        Board board = BoardMaker.Make(settings, CancellationToken.None);

        Assert.Empty(board.Rulers);
        Assert.Equal(0, board.Legend.Area);
        Assert.Equal(new BoardRectangle(0, 0, 0.03, 0.03), board.Pattern);
    }
}
