using BosFlow.Footage;
using CsCheck;

namespace BosFlow.Tests.Footage;

public sealed class RegionMaskTests
{
    [Fact]
    public void Build_Nothing_MeasuresAndTrustsEverything()
    {
        RegionMask mask = RegionMask.Build(new RegionSettings(), 7, 5);

        Assert.DoesNotContain((byte)0, mask.Measurable.Values.ToArray());
        Assert.DoesNotContain((byte)0, mask.Undisturbed.Values.ToArray());
    }

    [Fact]
    public void Build_Triangle_DrawsPixelCentresByHand()
    {
        // Edges: left x = 1, top y = 0, hypotenuse x + y = 5; left and top belong to it, the hypotenuse does not.
        RegionMask mask = RegionMask.Build(new RegionSettings { Exclude = [Polygon((1, 0), (5, 0), (1, 4))] }, 6, 5);

        Assert.Equal(["#....#", "#...##", "#..###", "#.####", "######"], Drawn(mask.Measurable));
    }

    [Fact]
    public void Build_SelfCrossingPolygon_FollowsEvenOddRule()
    {
        // A square drawn twice over its middle: the middle is crossed twice and stays.
        PixelPolygon twice = Polygon((0, 0), (6, 0), (6, 6), (0, 6), (0, 0), (2, 2), (4, 2), (4, 4), (2, 4), (2, 2));

        RegionMask mask = RegionMask.Build(new RegionSettings { Exclude = [twice] }, 7, 6);

        Assert.Equal(["......#", "......#", "..##..#", "..##..#", "......#", "......#"], Drawn(mask.Measurable));
    }

    [Fact]
    public void Build_InterestExcludeAndFlow_Combine()
    {
        var settings = new RegionSettings
        {
            Interest = new PixelRectangle(1, 1, 4, 2),
            Exclude = [Polygon((0, 0), (2, 0), (2, 4), (0, 4))],
            Flow = [Polygon((4, 0), (6, 0), (6, 4), (4, 4))],
        };

        RegionMask mask = RegionMask.Build(settings, 6, 4);

        Assert.Equal(["......", "..###.", "..###.", "......"], Drawn(mask.Measurable));
        Assert.Equal(["......", "..##..", "..##..", "......"], Drawn(mask.Undisturbed));
    }

    [Fact]
    public void Build_FlowEverywhere_LeavesNothingUndisturbed()
    {
        RegionMask mask = RegionMask.Build(new RegionSettings { Flow = [Polygon((0, 0), (6, 0), (6, 4), (0, 4))] }, 6, 4);

        Assert.DoesNotContain((byte)1, mask.Undisturbed.Values.ToArray());
        Assert.DoesNotContain((byte)0, mask.Measurable.Values.ToArray());
    }

    [Fact]
    public void Build_RandomPolygon_MatchesTestOfEachPoint() =>
        Gen.Select(Gen.Double[0, 20], Gen.Double[0, 15]).Array[3, 9].Sample(corners =>
        {
            byte[] mask = new byte[20 * 15];
            Array.Fill(mask, (byte)1);

            int inside = PolygonRaster.Clear(mask, 20, 15, new PixelPolygon(corners));

            for (int y = 0; y < 15; y++)
                for (int x = 0; x < 20; x++)
                {
                    // A centre within rounding of an edge may fall on either side.
                    bool near = Crossings(corners, y).Any(crossing => Math.Abs(crossing - x) < 1e-9);
                    if (!near && mask[(y * 20) + x] != (Holds(corners, x, y) ? 0 : 1))
                        return false;
                }

            return inside == mask.Count(value => value == 0);
        });

    [Fact]
    public void Build_TwoPolygonsSharingAnEdge_ShareNoPixelAndLeaveNone() =>
        Gen.Select(Gen.Double[-0.5, 12], Gen.Double[-0.5, 12]).Sample((top, bottom) =>
        {
            byte[] mask = new byte[12 * 9];
            int left = PolygonRaster.Clear(mask, 12, 9, Polygon((-0.5, -0.5), (top, -0.5), (bottom, 9), (-0.5, 9)));
            int right = PolygonRaster.Clear(mask, 12, 9, Polygon((top, -0.5), (12, -0.5), (12, 9), (bottom, 9)));
            return left + right == 12 * 9;
        });

    [Theory]
    [InlineData(-1, 0)]
    [InlineData(0, 10.5)]
    [InlineData(double.NaN, 0)]
    [InlineData(double.PositiveInfinity, 0)]
    public void Build_CornerOutside_NamesPolygonAndSize(double x, double y)
    {
        var settings = new RegionSettings { Flow = [Polygon((1, 1), (5, 1), (5, 5)), Polygon((x, y), (5, 1), (5, 5))] };

        InputDataException error = Assert.Throws<InputDataException>(() => RegionMask.Build(settings, 10, 10));

        Assert.Contains("region.flow, polygon 2", error.Message, StringComparison.Ordinal);
        Assert.Contains("10 x 10", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_TwoCorners_IsRefused()
    {
        InputDataException error = Assert.Throws<InputDataException>(() => RegionMask.Build(new RegionSettings { Exclude = [Polygon((1, 1), (5, 1))] }, 10, 10));

        Assert.Equal("region.exclude, polygon 1 has 2 corners; a polygon needs at least three.", error.Message);
    }

    [Fact]
    public void Build_CornersAsFractions_IsRefusedWithTheUnit()
    {
        var settings = new RegionSettings { Exclude = [Polygon((0.1, 0.1), (0.9, 0.1), (0.9, 0.9))] };

        InputDataException error = Assert.Throws<InputDataException>(() => RegionMask.Build(settings, 10, 10));

        Assert.Contains("give corners in px", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-1, 0, 5, 5)]
    [InlineData(6, 0, 5, 5)]
    [InlineData(0, 0, 0, 5)]
    [InlineData(0, int.MaxValue, 5, 5)]
    [InlineData(5, 5, int.MaxValue, 5)]
    public void Build_InterestOutside_IsRefused(int x, int y, int width, int height)
    {
        var settings = new RegionSettings { Interest = new PixelRectangle(x, y, width, height) };

        InputDataException error = Assert.Throws<InputDataException>(() => RegionMask.Build(settings, 10, 10));

        Assert.Contains("region.interest", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_EverythingExcluded_IsRefused()
    {
        var settings = new RegionSettings { Exclude = [Polygon((0, 0), (10, 0), (10, 10), (0, 10))] };

        InputDataException error = Assert.Throws<InputDataException>(() => RegionMask.Build(settings, 10, 10));

        Assert.Contains("leave no pixel", error.Message, StringComparison.Ordinal);
    }

    // The other textbook way: a ray to the right crosses the outline an odd number of times.
    private static bool Holds((double X, double Y)[] corners, double x, double y) =>
        Crossings(corners, y).Count(crossing => x < crossing) % 2 == 1;

    private static IEnumerable<double> Crossings((double X, double Y)[] corners, double y)
    {
        for (int i = 0, j = corners.Length - 1; i < corners.Length; j = i++)
        {
            (double xi, double yi) = corners[i];
            (double xj, double yj) = corners[j];
            if ((yi > y) != (yj > y))
                yield return xi + ((xj - xi) * (y - yi) / (yj - yi));
        }
    }

    private static PixelPolygon Polygon(params (double X, double Y)[] corners) => new(corners);

    private static string[] Drawn(PixelMask mask) =>
        [.. Enumerable.Range(0, mask.Height).Select(y => string.Concat(Enumerable.Range(0, mask.Width).Select(x => mask[x, y] ? '#' : '.')))];
}
