using BosFlow.Footage;
using CsCheck;

namespace BosFlow.Tests.Footage;

public sealed class PixelPolygonTests
{
    [Theory]
    [InlineData(5, 5, true)]
    [InlineData(15, 5, false)]
    [InlineData(15, 15, true)]
    [InlineData(5, 10, true)]
    [InlineData(25, 10, false)]
    [InlineData(-1, 10, false)]
    [InlineData(5, 25, false)]
    public void Contains_AngleOfSixCorners_KnowsItsNotch(double x, double y, bool isInside)
    {
        // The upper right quarter of a square of 20 px is cut out.
        var polygon = new PixelPolygon([(0, 0), (10, 0), (10, 10), (20, 10), (20, 20), (0, 20)]);

        Assert.Equal(isInside, polygon.Contains(x, y));
    }

    [Fact]
    public void Contains_Triangle_EqualsTheSignsOfItsSides()
    {
        Gen<double> place = Gen.Double[-10, 10];
        Gen.Select(place, place, place, place).Select(Gen.Select(place, place, place, place)).Sample((a, b) =>
        {
            (double x0, double y0, double x1, double y1) = a;
            (double x2, double y2, double x, double y) = b;
            double first = Side(x0, y0, x1, y1, x, y);
            double second = Side(x1, y1, x2, y2, x, y);
            double third = Side(x2, y2, x0, y0, x, y);
            // On a side either answer is right.
            if (Math.Abs(first) < 1e-9 || Math.Abs(second) < 1e-9 || Math.Abs(third) < 1e-9)
                return true;
            bool isInside = (first > 0 && second > 0 && third > 0) || (first < 0 && second < 0 && third < 0);
            return new PixelPolygon([(x0, y0), (x1, y1), (x2, y2)]).Contains(x, y) == isInside;
        });
    }

    [Fact]
    public void Contains_NeighboursThatShareASide_HoldEachPlaceOnce()
    {
        var left = new PixelPolygon([(0, 0), (4, 0), (4, 8), (0, 8)]);
        var right = new PixelPolygon([(4, 0), (9, 0), (9, 8), (4, 8)]);

        for (int y = 0; y < 8; y++)
            Assert.True(left.Contains(4, y) != right.Contains(4, y), $"row {y}");
    }

    private static double Side(double x0, double y0, double x1, double y1, double x, double y) => ((x1 - x0) * (y - y0)) - ((y1 - y0) * (x - x0));
}
