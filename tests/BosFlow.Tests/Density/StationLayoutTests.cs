using BosFlow.Density;
using BosFlow.Displacement;

namespace BosFlow.Tests.Density;

public sealed class StationLayoutTests
{
    private static readonly NodeGrid Grid = new(15.5, 15.5, 8, 21, 11);

    [Fact]
    public void Of_UprightAxis_HasAStationForEachRow()
    {
        AxisFrame axis = AxisFrame.At(70, 40, 90);

        StationLayout layout = StationLayout.Of(Grid, axis, 2e-4);

        Assert.Equal(Grid.Rows, layout.Count);
        Assert.Equal(Grid.Y(Grid.Rows - 1), axis.Place(layout.Along(0), 0).Y, 1e-9);
        Assert.Equal(Grid.Y(0), axis.Place(layout.Along(layout.Count - 1), 0).Y, 1e-9);
        Assert.Equal(2e-4 * 4, layout.RadialStepMetres, 1e-12);
    }

    [Theory]
    [InlineData(37)]
    [InlineData(-20)]
    [InlineData(120)]
    public void Of_TiltedAxis_KeepsStationsWithinTheGridAndRadiiToItsCorners(double degrees)
    {
        AxisFrame axis = AxisFrame.At(90, 55, degrees);

        StationLayout layout = StationLayout.Of(Grid, axis, 1e-3);

        Assert.True(layout.Count > 5);
        for (int station = 0; station < layout.Count; station++)
        {
            (double x, double y) = axis.Place(layout.Along(station), 0);
            Assert.InRange(x, Grid.X(0) - 1e-9, Grid.X(Grid.Columns - 1) + 1e-9);
            Assert.InRange(y, Grid.Y(0) - 1e-9, Grid.Y(Grid.Rows - 1) + 1e-9);
        }

        // Less than a spacing is left over at the ends together.
        (double endX, double endY) = axis.Place(layout.Along(layout.Count - 1) + layout.Spacing, 0);
        Assert.True(endX > Grid.X(Grid.Columns - 1) || endX < Grid.X(0) || endY > Grid.Y(Grid.Rows - 1) || endY < Grid.Y(0));
        double corner = new[] { (0, 0), (0, Grid.Rows - 1), (Grid.Columns - 1, 0), (Grid.Columns - 1, Grid.Rows - 1) }.Max(c => Math.Abs(axis.Split(Grid.X(c.Item1), Grid.Y(c.Item2)).Right));
        Assert.InRange((layout.MostRadii - 1) * layout.RadialStepMetres, 1e-3 * corner, 1e-3 * (corner + (2 * Grid.Spacing)));
    }

    [Fact]
    public void Of_AxisBesideTheGrid_HasNoStation()
    {
        Assert.Equal(0, StationLayout.Of(Grid, AxisFrame.At(10, 40, 90), 1e-3).Count);
        Assert.Equal(0, StationLayout.Of(Grid, AxisFrame.At(-200, 40, 60), 1e-3).Count);
    }
}
