using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Results.Maps;

namespace BosFlow.Results.Tests.Maps;

public sealed class DensityMapsTests
{
    [Fact]
    public void Of_Axisymmetric_ShowsMapsProfilesAndBudget() => Assert.Equal(
        ["density", "density_sigma", "temperature", "temperature_sigma", "density_profiles", "temperature_profiles", "density_sides", "density_axis", "temperature_axis", "uncertainty_budget"],
        Names(DrawnDensity.Round));

    [Fact]
    public void Of_Planar_ShowsTheResidualAndNoProfiles() =>
        Assert.Equal(["density", "density_sigma", "temperature", "temperature_sigma", "integration_residual", "uncertainty_budget"], Names(DrawnDensity.Planar));

    [Fact]
    public void Of_PathIntegrated_ShowsTheIntegralOnly() =>
        Assert.Equal(["density_path", "density_path_sigma", "integration_residual"], Names(DrawnDensity.PathIntegrated));

    [Fact]
    public void Of_NothingDetermined_ShowsNothing() => Assert.Empty(Names(DrawnDensity.Draw(SampleDensity.Nothing(SampleDensity.Axisymmetric()))));

    [Fact]
    public void Of_OneStationWithoutTemperature_HasNoCurveAlongTheAxis() =>
        Assert.Equal(["density", "density_sigma", "density_profiles", "density_sides", "uncertainty_budget"], Names(DrawnDensity.Draw(SampleDensity.WithoutTemperature(SampleDensity.Axisymmetric(stations: 1)))));

    [Fact]
    public void Of_NotAnchored_SaysDifferenceEverywhere()
    {
        RunPicture[] pictures = DrawnDensity.NotAnchored;

        Assert.Contains("difference", pictures[0].Title, StringComparison.Ordinal);
        Assert.Contains("not a density", pictures[0].Caption, StringComparison.Ordinal);
        Assert.Contains("difference", pictures[1].Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Comparable_PartlyAnchored_LeavesOutTheDifferences()
    {
        DensityResult density = SampleDensity.Planar();
        density.Flags[7] = DensityFlags.NotAnchored;

        float[] shown = DensityView.Comparable(density, density.Fields[0].Values);

        Assert.True(float.IsNaN(shown[7]));
        Assert.Equal(density.Fields[0].Values[8], shown[8]);
        Assert.Equal(1.0 / density.Grid.Count, DensityView.DifferenceShare(density), 1e-12);
    }

    [Fact]
    public void CellStates_OfDensity_HatchesMaskedAndMarksQuestionable() => Assert.Equal(
        [CellState.Plain, CellState.Masked, CellState.Plain, CellState.Marked, CellState.Marked, CellState.Plain],
        CellStates.Of(
            [DensityFlags.None, DensityFlags.NotMeasured, DensityFlags.NotMeasured, DensityFlags.Bridged, DensityFlags.Asymmetric | DensityFlags.NotAnchored, DensityFlags.NotAnchored],
            [VectorFlags.None, VectorFlags.Masked, VectorFlags.LowTexture, VectorFlags.Masked, VectorFlags.None, VectorFlags.LowCorrelation]));

    [Theory]
    [InlineData(87, 341.4, 246.2)]
    [InlineData(-12, 100, 200)]
    [InlineData(0, 320, 240)]
    public void AxisLines_OfADirection_PassThePointAndCrossAtStations(double degrees, double x, double y)
    {
        DensityResult density = SampleDensity.Axisymmetric() with { Axis = new AxisEstimate(x, y, degrees, double.NaN, double.NaN, 0.1, false) };

        IReadOnlyList<MapLine> lines = AxisLines.Of(density, 640, 480);

        Assert.Equal(6, lines.Count);
        MapLine axis = lines[0];
        Assert.Equal(degrees, Math.Atan2(axis.Y1 - axis.Y2, axis.X2 - axis.X1) * 180 / Math.PI, 1e-9);
        Assert.Equal(x, (axis.X1 + axis.X2) / 2, 1e-9);
        Assert.Equal(y, (axis.Y1 + axis.Y2) / 2, 1e-9);
        Assert.All(lines.Skip(1), line =>
        {
            Assert.Equal(0, ((line.X2 - line.X1) * (axis.X2 - axis.X1)) + ((line.Y2 - line.Y1) * (axis.Y2 - axis.Y1)), 1e-6);
            Assert.True(line.X2 >= line.X1);
            Assert.EndsWith(" mm", line.Label, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void Of_SameDensityTwice_GivesSameBytes()
    {
        foreach ((RunPicture a, RunPicture b) in DrawnDensity.Round.Zip(DrawnDensity.Draw(SampleDensity.Axisymmetric())))
            Assert.Equal(a.Png, b.Png);
    }

    private static IEnumerable<string> Names(RunPicture[] pictures) => pictures.Select(p => Path.GetFileNameWithoutExtension(p.FileName));
}
