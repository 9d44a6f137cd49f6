using BosFlow.Optics;

namespace BosFlow.Tests.Optics;

/// <summary>
/// Three worked rigs, each evaluated by hand from 1/f = 1/z_i + 1/Z_B: magnification, sensitivity (mm/rad), shift (px) for a deflection,
/// blur in the flow plane (mm), scale in the background (mm/px). Thin-lens arithmetic, no further source.
/// </summary>
public sealed class ThinLensTests
{
    [Theory]
    [InlineData(50e-3, 11, 1.0, 1.0, 3.45e-6, 1e-4, 0.0256410, 25.641, 0.7432, 2.2727, 0.13455)]
    [InlineData(3e-3, 2.5, 0.6, 0.4, 1.55e-6, 2.86e-4, 3.00903e-3, 1.20361, 0.22209, 0.480, 0.51512)]
    [InlineData(105e-3, 22, 3.0, 2.0, 3.45e-6, 1e-4, 0.0214505, 42.901, 1.2435, 1.9091, 0.160836)]
    public void ThinLens_WorkedRig_GivesWorkedValues(
        double focal, double fNumber, double lensToFlow, double flowToBackground, double pitch, double deflection,
        double magnification, double sensitivityMillimetres, double shiftPixels, double blurMillimetres, double scaleMillimetres)
    {
        double distance = lensToFlow + flowToBackground;
        Assert.Equal(magnification, ThinLens.Magnification(focal, distance), 1e-5 * magnification);
        Assert.Equal(magnification, ThinLens.ImageDistance(focal, distance) / distance, 1e-5 * magnification);
        Assert.Equal(sensitivityMillimetres, 1e3 * ThinLens.SensitivityMetresPerRadian(focal, lensToFlow, flowToBackground), 1e-4 * sensitivityMillimetres);
        Assert.Equal(blurMillimetres, 1e3 * ThinLens.FlowPlaneBlur(focal, fNumber, lensToFlow, flowToBackground), 1e-4 * blurMillimetres);
        Assert.Equal(scaleMillimetres, 1e3 * ThinLens.BackgroundMetresPerPixel(focal, distance, pitch), 1e-4 * scaleMillimetres);

        OpticalScale scale = OpticalScaling.From(
            new RigGeometry { LensToFlowMetres = lensToFlow, FlowToBackgroundMetres = flowToBackground, FocalLengthMetres = focal, PixelPitchMetres = pitch }, new GasSettings());
        Assert.Equal(-deflection / shiftPixels, scale.DeflectionPerPixel, 1e-4 * deflection / shiftPixels);
    }

    [Fact]
    public void SensitivityMetresPerRadian_FlowHalfWayFarAway_IsHalfTheFocalLength() =>
        Assert.Equal(25e-3, ThinLens.SensitivityMetresPerRadian(50e-3, 500, 500), 1e-5);
}
