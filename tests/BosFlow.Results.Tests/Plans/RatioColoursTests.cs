using BosFlow.Results.Plans;

namespace BosFlow.Results.Tests.Plans;

public sealed class RatioColoursTests
{
    [Fact]
    public void Position_EqualRatios_AreEqualSteps()
    {
        RatioColours colours = RatioColours.Of([1, 100, double.NaN]);

        Assert.Equal(0.5, colours.Position(10), 12);
        Assert.Equal(0, colours.Position(1), 12);
    }

    [Fact]
    public void Of_EqualNumbers_HasRoomAroundThem()
    {
        RatioColours colours = RatioColours.Of([7, 7]);

        Assert.InRange(colours.Position(7), 0.4, 0.6);
    }

    [Theory]
    [InlineData(1, 1000)]
    [InlineData(2.9, 3.4)]
    [InlineData(0.02, 90000)]
    [InlineData(120, 260)]
    public void Round_AnyRange_GivesAFewNumbersWithinIt(double low, double high)
    {
        IReadOnlyList<double> values = new RatioColours(low, high).Round(8);

        Assert.InRange(values.Count, 2, 8);
        Assert.All(values, value => Assert.InRange(value, low * 0.99, high * 1.01));
    }
}
