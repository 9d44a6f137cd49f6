using BosFlow.Density;
using BosFlow.Footage;
using BosFlow.Optics;

namespace BosFlow.Tests.Density;

public sealed class DensityConverterTests
{
    [Fact]
    public void Check_PlanarWithoutPathLength_SaysWhatToGive()
    {
        Assert.Equal(
            "A planar flow needs the length of the light's path through it: give path_length_mm.",
            Problem(DensityScene.Rig with { PathLengthMetres = null }, DensityScene.Gas, new FlowSettings { Shape = FlowShape.Planar }));
    }

    [Theory]
    [InlineData(200, 0, 200, 50)]
    [InlineData(-40, 10, 20, -90)]
    [InlineData(30, 30, 30, 30)]
    public void Check_AxisBesideThePicture_NamesIt(double x1, double y1, double x2, double y2)
    {
        Assert.Equal(
            FormattableString.Invariant($"The axis from ({x1}, {y1}) to ({x2}, {y2}) px does not run through the picture of 177 x 37 px: give two different points on it in px of the reference picture."),
            Problem(DensityScene.Rig, DensityScene.Gas, new FlowSettings { Shape = FlowShape.Axisymmetric, Axis = new AxisLine(x1, y1, x2, y2) }));
    }

    [Fact]
    public void Check_AxisWhosePointsLieOutsideButWhichCrosses_IsFine()
    {
        DensityConverter.Check(DensityScene.Rig, DensityScene.Gas, new FlowSettings { Shape = FlowShape.Axisymmetric, Axis = new AxisLine(80, 400, 90, -300) }, 177, 37);
    }

    [Fact]
    public void Check_SigmaTooLarge_NamesInputAndLimit()
    {
        string problem = Problem(
            DensityScene.Rig with { LensToFlowMetres = 0.3, FlowToBackgroundMetres = 0.2, PathLengthMetres = 0.5, PathLengthSigmaMetres = 0.6 }, DensityScene.Gas, new FlowSettings { Shape = FlowShape.Planar });

        Assert.StartsWith("The uncertainty of the path length through the flow (500 mm ± 600 mm) is too large to work with: The path length through the flow, 1100 mm, does not fit between lens and background", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_UnknownGas_NamesIt()
    {
        string problem = Problem(DensityScene.Rig, new GasSettings { Name = "heelium" }, new FlowSettings { Shape = FlowShape.Axisymmetric });

        Assert.StartsWith("Gas 'heelium' is not in the table", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Convert_WrongSettings_AreRefusedBeforeAnythingIsComputed()
    {
        DensityRequest request = DensityScene.Planar(KnownDisplacement.Of(DensityScene.PlanarGrid, DensityScene.BlobDisplacement, 1e-3));

        Assert.Throws<ConfigurationException>(() => DensityConverter.Convert(request with { Rig = request.Rig with { PathLengthMetres = null } }, CancellationToken.None));
    }

    [Fact]
    public void Convert_GasOfUnknownMass_HasNoTemperatureAndSaysSo()
    {
        DensityRequest request = DensityScene.Round(KnownDisplacement.Of(DensityScene.RoundGrid, DensityScene.Plume, 1e-3));

        DensityResult unknown = DensityConverter.Convert(request with { Gas = request.Gas with { Name = "mixture 7" } }, CancellationToken.None);
        DensityResult unwanted = DensityConverter.Convert(request with { Flow = request.Flow with { Temperature = TemperatureModel.None } }, CancellationToken.None);

        Assert.Equal(["density", "refractive_index"], unknown.Fields.Select(field => field.Name));
        Assert.Contains("No temperature can be given: the molar mass of gas 'mixture 7' is not known. Give its composition by mole fractions.", unknown.Warnings);
        Assert.Equal(["density", "refractive_index"], unwanted.Fields.Select(field => field.Name));
        Assert.DoesNotContain(unwanted.Warnings, warning => warning.Contains("temperature can be given", StringComparison.Ordinal));
        Assert.True(double.IsNaN(unwanted.Budget!.TemperatureKelvin) && double.IsNaN(unwanted.Budget.SigmaTemperatureKelvin));
    }

    [Fact]
    public void IsWanted_PathIntegrated_NeedsAnUndisturbedPlace()
    {
        Assert.False(DensityConverter.IsWanted(new FlowSettings()));
        Assert.True(DensityConverter.IsWanted(new FlowSettings { AmbientEdges = PictureEdge.Top }));
        Assert.True(DensityConverter.IsWanted(new FlowSettings { AmbientRegions = [new PixelPolygon([(0, 0), (1, 0), (0, 1)])] }));
        Assert.True(DensityConverter.IsWanted(new FlowSettings { Shape = FlowShape.Planar }));
    }

    private static string Problem(RigGeometry rig, GasSettings gas, FlowSettings flow) =>
        Assert.Single(Assert.Throws<ConfigurationException>(() => DensityConverter.Check(rig, gas, flow, 177, 37)).Problems);
}
