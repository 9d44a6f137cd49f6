using BosFlow.Optics;

namespace BosFlow.Tests.Optics;

public sealed class OpticalScalingTests
{
    private static readonly RigGeometry Rig = new() { LensToFlowMetres = 1.2, FlowToBackgroundMetres = 0.8, BackgroundMetresPerPixel = 0.31e-3 };

    [Fact]
    public void From_ScaleGiven_GivesFactorsOfTheFormulas()
    {
        OpticalScale scale = OpticalScaling.From(Rig with { PathLengthMetres = 0.1 }, new GasSettings());

        Assert.Equal(0.31e-3, scale.BackgroundMetresPerPixel);
        Assert.Equal(0.31e-3 * 0.6, scale.FlowMetresPerPixel, 1e-12);
        Assert.Equal(-0.31e-3 / 0.8, scale.DeflectionPerPixel, 1e-12);
        Assert.Equal(1.000277838, scale.AmbientIndex, 2e-8); // Ciddor 1996: 27783.8e-8 at 15 degC, 101325 Pa, 550 nm
        Assert.Equal(scale.AmbientIndex * scale.DeflectionPerPixel, scale.IndexGradientPathPerPixel, 1e-12);
        Assert.Equal(scale.IndexGradientPathPerPixel / 2.2672e-4, scale.DensityGradientPathPerPixel, 1e-3);
        Assert.Equal(scale.DensityGradientPathPerPixel / 0.1, scale.DensityGradientPerPixel!.Value, 1e-9);
    }

    [Fact]
    public void From_NoPathLength_LeavesTheLocalGradientOut() =>
        Assert.Null(OpticalScaling.From(Rig, new GasSettings()).DensityGradientPerPixel);

    [Fact]
    public void From_DotMovesTowardsHotGas_DensityGradientPointsAway()
    {
        // A hot column to the right: dots move right (u > 0), towards the hot side; density falls to the right, so its gradient is negative there.
        double gradient = OpticalScaling.From(Rig, new GasSettings()).DensityGradientPathPerPixel * 0.5;
        Assert.True(gradient < 0);
    }

    [Fact]
    public void From_Wedge_DotShiftGivesBackTheDeflection()
    {
        // Thin prism, n = 1.5168 (borosilicate crown, sodium line), apex 0.5 degrees: 4.50993e-3 rad.
        OpticalScale scale = OpticalScaling.From(Rig, new GasSettings());
        double shift = -0.8 * 4.50993e-3 / 0.31e-3;
        Assert.Equal(4.50993e-3, scale.DeflectionPerPixel * shift, 1e-12);
    }

    [Fact]
    public void From_HeliumAndGivenDensity_UsesGladstoneDaleIndex()
    {
        OpticalScale scale = OpticalScaling.From(Rig, new GasSettings { Name = "helium", AmbientDensityKgM3 = 0.16 });
        Assert.Equal(1 + (0.196e-3 * 0.16), scale.AmbientIndex, 1e-12);
    }

    [Fact]
    public void AmbientDensity_StandardAtmosphere_IsPublishedValue() =>
        Assert.Equal(1.2250, OpticalScaling.AmbientDensityKgM3(new GasSettings()), 5e-4); // ISO 2533:1975, sea level

    [Fact]
    public void From_AmbientIndexByTwoWays_AgreesWithinTheTable()
    {
        double ciddor = OpticalScaling.From(Rig, new GasSettings()).AmbientIndex;
        double gladstoneDale = OpticalScaling.From(Rig, new GasSettings { AmbientDensityKgM3 = 1.225 }).AmbientIndex;
        Assert.Equal(ciddor, gladstoneDale, 5e-7);
    }

    [Theory]
    [InlineData(0.0, 0.8, "distance from the lens to the flow is 0 m")]
    [InlineData(1.2, -0.8, "distance from the flow to the background is -0.8 m")]
    [InlineData(double.NaN, 0.8, "NaN")]
    [InlineData(1200.0, 0.8, "1200 m")]
    public void From_ImpossibleDistance_IsRefusedByName(double lensToFlow, double flowToBackground, string expected)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(
            () => OpticalScaling.From(Rig with { LensToFlowMetres = lensToFlow, FlowToBackgroundMetres = flowToBackground }, new GasSettings()));
        Assert.Contains(expected, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void From_NoScaleAtAll_SaysWhatIsMissing()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(
            () => OpticalScaling.From(Rig with { BackgroundMetresPerPixel = null, FocalLengthMetres = 16e-3 }, new GasSettings()));
        Assert.Contains("both focal length and pixel pitch", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void From_ScaleAgainstLens_RefusesContradiction()
    {
        RigGeometry contradicting = Rig with { FocalLengthMetres = 16e-3, PixelPitchMetres = 1.55e-6 };
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => OpticalScaling.From(contradicting, new GasSettings()));
        Assert.Contains("0.31 mm/px", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("0.1922 mm/px", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void From_ScaleNearLens_PrefersTheNumberGiven()
    {
        RigGeometry both = Rig with { BackgroundMetresPerPixel = 0.195e-3, FocalLengthMetres = 16e-3, PixelPitchMetres = 1.55e-6 };
        Assert.Equal(0.195e-3, OpticalScaling.From(both, new GasSettings()).BackgroundMetresPerPixel);
    }

    [Fact]
    public void From_SeveralProblems_NamesAll()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(
            () => OpticalScaling.From(Rig with { LensToFlowMetres = -1, FNumber = 0, PathLengthMetres = double.PositiveInfinity }, new GasSettings()));
        Assert.Contains("lens to the flow", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("f-number", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("path length", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void From_UnknownGasWithCoefficientOnly_AsksForDensity()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(
            () => OpticalScaling.From(Rig, new GasSettings { Name = "kiln gas", GladstoneDaleM3PerKg = 2.29e-4 }));
        Assert.Contains("ambient density", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FlowPlaneBlur_KnownLens_IsConeOfTheAperture()
    {
        Assert.Equal(2.2727e-3, OpticalScaling.FlowPlaneBlurMetres(new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 50e-3, FNumber = 11 })!.Value, 1e-7);
        Assert.Null(OpticalScaling.FlowPlaneBlurMetres(Rig));
    }
}
