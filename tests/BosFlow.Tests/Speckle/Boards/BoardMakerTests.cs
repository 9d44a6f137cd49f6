using BosFlow.Speckle.Boards;
using CsCheck;

namespace BosFlow.Tests.Speckle.Boards;

public sealed class BoardMakerTests
{
    private static readonly Gen<BoardSettings> AnyBoard =
        from width in Gen.Double[0.03, 0.1]
        from height in Gen.Double[0.03, 0.1]
        from diameter in Gen.Double[0.5e-3, 1.2e-3]
        from smaller in Gen.Double[0.3, 1]
        from coverage in Gen.Double[0.05, 0.37] // with the usual gap 0.379 fits
        from tones in Gen.Enum<BoardTones>()
        from fiducials in Gen.Bool
        from seed in Gen.ULong
        select new BoardSettings
        {
            WidthMetres = width,
            HeightMetres = height,
            Sizes = smaller > 0.9 ? [new(diameter, 1)] : [new(diameter, 0.4), new(diameter * smaller, 0.6)],
            Coverage = coverage,
            Tones = tones,
            WithFiducials = fiducials,
            FiducialSideMetres = 0.006,
            Seed = seed,
        };

    [Fact]
    public void Make_AnySettings_KeepsGapsEdgesAndWhiteZones() => AnyBoard.Sample(settings =>
    {
        Board board = BoardMaker.Make(settings, CancellationToken.None);
        double half = board.Fiducials.Count == 0 ? 0 : (board.Fiducials[0].Side / 2) + board.FiducialQuietZone;
        foreach (PrintedDot dot in board.Dots)
        {
            double radius = settings.Sizes[dot.Size].DiameterMetres / 2;
            Assert.True(dot.X - radius >= board.Pattern.Left && dot.X + radius <= board.Pattern.Right);
            Assert.True(dot.Y - radius >= board.Pattern.Top && dot.Y + radius <= board.Pattern.Bottom);
            foreach (Fiducial fiducial in board.Fiducials)
            {
                double dx = Math.Max(0, Math.Abs(dot.X - fiducial.X) - half);
                double dy = Math.Max(0, Math.Abs(dot.Y - fiducial.Y) - half);
                Assert.True((dx * dx) + (dy * dy) >= radius * radius);
            }
        }

        Assert.True(SmallestGap(board) >= settings.GapMetres - 1e-12);
    }, iter: 12);

    [Fact]
    public void Make_AnySettings_ReachesTheCoverageToHalfADotOfEachSize() => AnyBoard.Sample(settings =>
    {
        Board board = BoardMaker.Make(settings, CancellationToken.None);
        double zone = board.Fiducials.Count == 0 ? 0 : board.Fiducials[0].Side + (2 * board.FiducialQuietZone);
        double free = board.Pattern.Area - (board.Fiducials.Count * zone * zone);
        for (int i = 0; i < settings.Sizes.Count; i++)
        {
            double dotArea = Math.PI / 4 * Math.Pow(settings.Sizes[i].DiameterMetres, 2);
            Assert.Equal(settings.Coverage * settings.Sizes[i].Share * free, board.Dots.Count(dot => dot.Size == i) * dotArea, (dotArea / 2) + 1e-12);
        }

        Assert.Equal(board.Dots.Sum(dot => Math.PI / 4 * Math.Pow(settings.Sizes[dot.Size].DiameterMetres, 2)) / free, board.CoverageReached, 1e-9);
    }, iter: 12);

    [Theory]
    [InlineData(BoardTones.Dark)]
    [InlineData(BoardTones.Inverted)]
    [InlineData(BoardTones.TwoTone)]
    public void Make_AnA4Board_ReachesTheCoverageWithinOnePercent(BoardTones tones)
    {
        BoardSettings settings = A4() with { Tones = tones, Coverage = 0.3 };

        Board board = BoardMaker.Make(settings, CancellationToken.None);

        Assert.Equal(0.3, board.CoverageReached, 0.003);
        double light = board.Dots.Count(dot => dot.IsLight) / (double)board.Dots.Count;
        Assert.Equal(tones switch { BoardTones.Dark => 0, BoardTones.Inverted => 1, _ => 0.5 }, light, 1e-3);
    }

    [Fact]
    public void Make_SameSettings_GivesSameBoard()
    {
        Assert.Equal(BoardMaker.Make(A4(), CancellationToken.None).Dots, BoardMaker.Make(A4(), CancellationToken.None).Dots);
        Assert.NotEqual(BoardMaker.Make(A4(), CancellationToken.None).Dots, BoardMaker.Make(A4() with { Seed = 2 }, CancellationToken.None).Dots);
    }

    [Fact]
    public void Make_Positions_AreWholeTenthsOfAMicrometre() =>
        Assert.All(BoardMaker.Make(A4(), CancellationToken.None).Dots, dot => Assert.Equal(Math.Round(dot.X * 1e7) / 1e7, dot.X));

    [Fact]
    public void Make_Cancelled_Stops() =>
        Assert.Throws<OperationCanceledException>(() => BoardMaker.Make(A4() with { Sizes = [new(0.3e-3, 1)] }, new CancellationToken(canceled: true)));

    internal static BoardSettings A4() => new() { WidthMetres = 0.194, HeightMetres = 0.281, Sizes = [new(1e-3, 1)] };

    // Sorted by x, only dots within a strip of the largest reach are compared.
    private static double SmallestGap(Board board)
    {
        PrintedDot[] dots = [.. board.Dots.OrderBy(dot => dot.X)];
        IReadOnlyList<DotSize> sizes = board.Settings.Sizes;
        double reach = sizes[0].DiameterMetres + board.Settings.GapMetres;
        double smallest = double.PositiveInfinity;
        for (int i = 0; i < dots.Length; i++)
        {
            for (int j = i + 1; j < dots.Length && dots[j].X - dots[i].X <= reach; j++)
            {
                double distance = Math.Sqrt(Math.Pow(dots[i].X - dots[j].X, 2) + Math.Pow(dots[i].Y - dots[j].Y, 2));
                smallest = Math.Min(smallest, distance - ((sizes[dots[i].Size].DiameterMetres + sizes[dots[j].Size].DiameterMetres) / 2));
            }
        }

        return smallest;
    }
}
