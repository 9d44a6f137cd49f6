using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Statistics;

namespace BosFlow.Tests.Optics;

public sealed class DerivedFieldsTests
{
    private static readonly RigGeometry Rig = new() { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, BackgroundMetresPerPixel = 1e-3, PathLengthMetres = 0.2 };

    [Fact]
    public void From_MeanDisplacement_GivesNamesUnitsValuesAndSigma()
    {
        OpticalScale scale = OpticalScaling.From(Rig, new GasSettings { GladstoneDaleM3PerKg = 2e-4, AmbientDensityKgM3 = 1 });

        IReadOnlyList<ScalarField> fields = DerivedFields.From(Statistics(), scale);

        Assert.Equal(
            ["deflection_x", "deflection_y", "index_gradient_path_x", "index_gradient_path_y", "density_gradient_path_x", "density_gradient_path_y", "density_gradient_x", "density_gradient_y"],
            fields.Select(field => field.Name));
        Assert.Equal(["rad", "rad", "1", "1", "kg m-3", "kg m-3", "kg m-4", "kg m-4"], fields.Select(field => field.Unit));

        // u = 0.5 px at 1 mm/px and Z_D = 1 m: -5e-4 rad; / 2e-4 m3/kg = -2.5 kg/m3 (times n0 = 1.0002); / 0.2 m = -12.5 kg/m4.
        Assert.Equal(-5e-4, fields[0].Values[0], 1e-9);
        Assert.Equal(-2.5005, fields[4].Values[0], 1e-5);
        Assert.Equal(-12.5025, fields[6].Values[0], 1e-4);
        Assert.Equal(0.01 * 5.001, fields[4].Sigma[0], 1e-6);
        Assert.Equal(2.5005, fields[5].Values[0], 1e-5);
        Assert.True(float.IsNaN(fields[4].Values[1]) && float.IsNaN(fields[4].Sigma[1]));
    }

    [Fact]
    public void From_NoPathLength_HasNoLocalGradient()
    {
        OpticalScale scale = OpticalScaling.From(Rig with { PathLengthMetres = null }, new GasSettings());
        Assert.Equal(6, DerivedFields.From(Statistics(), scale).Count);
    }

    private static FieldStatistics Statistics() => new()
    {
        Grid = new NodeGrid(15.5, 15.5, 16, 2, 1),
        MeanU = [0.5f, float.NaN],
        MeanV = [-0.5f, float.NaN],
        RmsU = [0, 0],
        RmsV = [0, 0],
        SigmaMeanU = [0.01f, float.NaN],
        SigmaMeanV = [0.02f, float.NaN],
        MeanCorrelation = [1, 0],
        Count = [4, 0],
        PrevailingFlags = [VectorFlags.None, VectorFlags.Masked],
    };
}
