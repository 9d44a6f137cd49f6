using BosFlow.Density;
using CsCheck;

namespace BosFlow.Tests.Density;

public sealed class AxisFrameTests
{
    [Fact]
    public void Place_OfSplit_IsTheSamePlace()
    {
        Gen.Select(Gen.Double[-500, 500], Gen.Double[-500, 500], Gen.Double[-180, 180], Gen.Double[-900, 900], Gen.Double[-900, 900]).Sample((x, y, degrees, atX, atY) =>
        {
            AxisFrame axis = AxisFrame.At(x, y, degrees);
            (double along, double right) = axis.Split(atX, atY);
            (double placeX, double placeY) = axis.Place(along, right);
            return Math.Abs(placeX - atX) < 1e-9 && Math.Abs(placeY - atY) < 1e-9 && Math.Abs(Math.IEEERemainder(axis.DirectionDegrees - degrees, 360)) < 1e-9;
        });
    }

    // The picture's y runs down: looking up, the right is the right of the picture; looking to its right, the right is below.
    [Theory]
    [InlineData(90, 1, 0)]
    [InlineData(0, 0, 1)]
    [InlineData(-90, -1, 0)]
    [InlineData(180, 0, -1)]
    public void Right_AsSeen_IsTheRightHand(double degrees, double x, double y)
    {
        AxisFrame axis = AxisFrame.At(10, 20, degrees);

        Assert.Equal(x, axis.RightX, 1e-12);
        Assert.Equal(y, axis.RightY, 1e-12);
        Assert.Equal(3, axis.MovedRight(3).Split(10, 20).Right * -1, 1e-12);
    }

    [Fact]
    public void Through_TwoPoints_RunsFromTheFirstToTheSecond()
    {
        AxisFrame axis = AxisFrame.Through(new AxisLine(10, 50, 40, 10))!.Value;

        (double along, double right) = axis.Split(40, 10);
        Assert.Equal(50, along, 1e-12);
        Assert.Equal(0, right, 1e-12);
        Assert.Equal(53.13010235, axis.DirectionDegrees, 1e-7);
        Assert.Null(AxisFrame.Through(new AxisLine(3, 4, 3, 4)));
    }

    [Theory]
    [InlineData(90, 90)]
    [InlineData(-90, 90)]
    [InlineData(135, -45)]
    [InlineData(-91, 89)]
    [InlineData(361, 1)]
    public void Folded_Direction_HasNoSense(double degrees, double expected) => Assert.Equal(expected, AxisFinder.Folded(degrees), 1e-9);
}
