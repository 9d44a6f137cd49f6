using BosFlow.Density;
using BosFlow.Displacement;

namespace BosFlow.Tests.Density;

public sealed class CrossSectionTests
{
    private const double Scale = 5e-4;
    private static readonly NodeGrid Grid = new(15.5, 15.5, 8, 15, 11);

    [Theory]
    [InlineData(90)]
    [InlineData(70)]
    public void Values_LinearAlongTheAxisAndParabolicAcross_AreExact(double degrees)
    {
        AxisFrame axis = AxisFrame.At(75, 55, degrees);
        StationLayout layout = StationLayout.Of(Grid, axis, Scale);

        double[] values = CrossSection.Values(Grid, axis, layout, Scale, Profiles(layout, layout.MostRadii, s => 1 + (0.1 * s)));

        int compared = 0;
        for (int node = 0; node < Grid.Count; node++)
        {
            (double station, double radius) = Place(axis, layout, node);
            if (station < 0 || station > layout.Count - 1)
                continue;
            Assert.Equal((1 + (0.1 * station)) * Across(radius), values[node], 1e-9);
            compared++;
        }

        Assert.True(compared > 100);
    }

    [Fact]
    public void Values_CubicAlongTheAxis_AreExactBetweenInnerStations()
    {
        AxisFrame axis = AxisFrame.At(75, 55.3, 80);
        StationLayout layout = StationLayout.Of(Grid, axis, Scale);
        static double Cubic(double s) => 1 + (0.02 * s * s) - (0.003 * s * s * s);

        double[] values = CrossSection.Values(Grid, axis, layout, Scale, Profiles(layout, layout.MostRadii, Cubic));

        for (int node = 0; node < Grid.Count; node++)
        {
            (double station, double radius) = Place(axis, layout, node);
            if (station > 1 && station < layout.Count - 2)
                Assert.Equal(Cubic(station) * Across(radius), values[node], 1e-9);
        }
    }

    [Fact]
    public void Of_NodesBeyondTheProfiles_AreNotMeasured()
    {
        AxisFrame axis = AxisFrame.At(Grid.X(3), 55, 90);
        StationLayout layout = StationLayout.Of(Grid, axis, Scale);
        // Nine radii reach four nodes far; of the three stations missing, the middle one has no neighbour either that could stand for it.
        UnitProfile?[] profiles = [.. Profiles(layout, 9, _ => 1).Select((excess, station) => station is 4 or 5 or 6 ? null : Profile(excess!, 0.1 * (station + 1)))];

        UnitField section = CrossSection.Of(Grid, axis, layout, Scale, profiles);

        for (int node = 0; node < Grid.Count; node++)
        {
            int column = node % Grid.Columns;
            int station = Grid.Rows - 1 - (node / Grid.Columns);
            bool isReached = Math.Abs(column - 3) <= 4 && station != 5;
            if (station is 4 or 6)
                continue;
            Assert.Equal(isReached, double.IsFinite(section.Values[node]));
            Assert.Equal(isReached, double.IsFinite(section.Sigma[node]));
            Assert.Equal(!isReached, section.Flags[node].HasFlag(DensityFlags.NotMeasured));
            if (isReached)
                Assert.Equal(0.1 * (station + 1), section.Sigma[node], 1e-12);
        }
    }

    private static (double Station, double Radius) Place(AxisFrame axis, StationLayout layout, int node)
    {
        (double along, double right) = axis.Split(Grid.X(node % Grid.Columns), Grid.Y(node / Grid.Columns));
        return ((along - layout.First) / layout.Spacing, Math.Abs(right) * Scale / layout.RadialStepMetres);
    }

    // An even polynomial: the cubic through four mirrored points follows a parabola exactly.
    private static double Across(double radius) => 2 - (0.01 * radius * radius);

    private static double[]?[] Profiles(StationLayout layout, int radii, Func<double, double> along) =>
        [.. Enumerable.Range(0, layout.Count).Select(station => (double[]?)[.. Enumerable.Range(0, radii).Select(i => along(station) * Across(i))])];

    private static UnitProfile Profile(double[] excess, double sigma) => new()
    {
        Along = 0,
        Slope = new double[excess.Length],
        Correction = new double[excess.Length],
        Inverse = new SlopeInversion(new double[excess.Length * excess.Length], excess.Length),
        Excess = excess,
        Sigma = [.. excess.Select(_ => sigma)],
        Left = excess,
        Right = excess,
        SigmaDifference = [.. excess.Select(_ => sigma)],
        Flags = new DensityFlags[excess.Length],
        CurvedShare = 0,
        EdgeShare = 0,
        EdgeSignificance = 0,
    };
}
