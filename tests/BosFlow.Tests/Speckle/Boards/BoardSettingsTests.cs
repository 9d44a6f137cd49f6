using BosFlow.Speckle.Boards;

namespace BosFlow.Tests.Speckle.Boards;

public sealed class BoardSettingsTests
{
    private static readonly BoardSettings Good = BoardMakerTests.A4();

    public static TheoryData<BoardSettings, string> Bad => new()
    {
        { Good with { WidthMetres = 0 }, "each side must be 10 mm to 50000 mm" },
        { Good with { HeightMetres = -0.2 }, "each side must be 10 mm to 50000 mm" },
        { Good with { HeightMetres = double.NaN }, "each side must be 10 mm to 50000 mm" },
        { Good with { Sizes = [] }, "it must have 1 to 8" },
        { Good with { Sizes = [new(0, 1)] }, "it must be at least 0.02 mm" },
        { Good with { Sizes = [new(-1e-3, 1)] }, "it must be at least 0.02 mm" },
        { Good with { Sizes = [new(double.PositiveInfinity, 1)] }, "it must be at least 0.02 mm" },
        { Good with { Sizes = [new(1e-3, 0.5), new(2e-3, 0.5)] }, "come largest first" },
        { Good with { Sizes = [new(1e-3, 0.5), new(0.9999e-3, 0.5)] }, "must differ by at least 0.001 mm" },
        { Good with { Sizes = [new(2e-3, 0.5), new(1e-3, 0.4)] }, "sum to 0.9; they must sum to 1" },
        { Good with { Sizes = [new(2e-3, 1), new(1e-3, 0)] }, "greater than 0 and at most 1" },
        { Good with { Coverage = 0 }, "greater than 0 and smaller than 1" },
        { Good with { Coverage = double.NaN }, "greater than 0 and smaller than 1" },
        { Good with { LeastGapMetres = -1e-4 }, "it must be 0 mm or more" },
        { Good with { FiducialSideMetres = 0 }, "it must be greater than 0 mm" },
        { Good with { InkGainMetres = 1e-3 }, "smaller than the smallest dot of 1 mm" },
        { Good with { InkGainMetres = -0.2e-3 }, "not beyond the gap of 0.1 mm" },
        { Good with { Sizes = [new(0.3, 1)] }, "are larger than the pattern of 182 mm x 262 mm" },
        { Good with { FiducialSideMetres = 0.05 }, "the largest are 48.533 mm" },
        { Good with { Coverage = 0.6 }, "the largest coverage for that gap is 0.40" },
        { Good with { Sizes = [new(0.02e-3, 1)] }, "at most 20000000 are drawn" },
        { Good with { Coverage = 1e-6 }, "Not one dot of 1 mm" },
        { Good with { LongestRulerMetres = -1 }, "it must be 0 mm (none) to 50000 mm" },
        { Good with { Tones = (BoardTones)7 }, "dark, inverted or two-tone" },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public void Problems_OneMistake_IsNamedWithItsLimit(BoardSettings settings, string part)
    {
        string problem = Assert.Single(settings.Problems());

        Assert.Contains(part, problem, StringComparison.Ordinal);
        Assert.Throws<ConfigurationException>(() => BoardMaker.Make(settings, CancellationToken.None));
    }

    [Fact]
    public void Problems_SeveralMistakes_AreAllNamed() =>
        Assert.Equal(3, (Good with { WidthMetres = 0, Coverage = 2, LeastGapMetres = -1 }).Problems().Count);

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.1e-3)]
    [InlineData(1e-3)]
    public void Problems_LargestCoverageThatIsNamed_CanBeMade(double gap)
    {
        BoardSettings settings = Good with { WidthMetres = 0.1, HeightMetres = 0.1, LeastGapMetres = gap, Coverage = 0.9, WithFiducials = false };
        string problem = Assert.Single(settings.Problems());
        string largest = problem[(problem.LastIndexOf(' ') + 1)..].TrimEnd('.');
        double coverage = double.Parse(largest, System.Globalization.CultureInfo.InvariantCulture);

        Board board = BoardMaker.Make(settings with { Coverage = coverage }, CancellationToken.None);

        Assert.Equal(coverage, board.CoverageReached, 0.01 * coverage);
    }
}
