using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class PrescribedFieldTests
{
    private static readonly ViewGeometry View = new(1.0, 1.0, 0.5e-3, 319.5, 239.5, 1.000277);

    [Fact]
    public void WeakLens_WorkedExample_MagnifiesAsTheTwoLensFormula()
    {
        // F = 10 m, Z_A = Z_D = 1 m: k = 0.05, X_on / X_off = 1.05263. Two-lens check: the weak lens images the board at distance d' with
        // 1/d' = 1/1 - 1/10, so at 1.1111 m behind the flow plane with magnification 1.1111; seen from 1 + 1.1111 m instead of 2 m: 1.1111 * 2 / 2.1111.
        FlowSample sample = new WeakLensField(View, 10).At(View.CentreX + 100, View.CentreY - 40);
        double image = 1 / (1 - 0.1);
        double magnification = image * 2 / (1 + image);
        Assert.Equal(1.05263, magnification, 1e-5);
        Assert.Equal(100 * (magnification - 1), sample.U, 1e-9);
        Assert.Equal(-40 * (magnification - 1), sample.V, 1e-9);
        Assert.True(sample.IndexGradientPathX < 0, "the lens is denser towards its axis");
    }

    [Fact]
    public void WeakLens_ConvexLens_DotsMoveOutward() => Assert.True(new WeakLensField(View, 20).At(View.CentreX + 10, View.CentreY).U > 0);

    [Fact]
    public void Wedge_WorkedExample_DeviatesByThinPrismFormula()
    {
        // n = 1.5168, apex 0.5 degrees: 4.50993e-3 rad = 0.2584 degrees.
        var wedge = new WedgeField(View, 1.5168, 0.5, 90);
        Assert.Equal(4.50993e-3, wedge.DeflectionRadians, 1e-8);
        FlowSample sample = wedge.At(3, 4);
        Assert.Equal(4.50993e-3 / 0.5e-3, sample.V, 1e-3);
        Assert.Equal(0, sample.U, 1e-9);
    }

    [Fact]
    public void Wedge_ThickSideUp_DotsMoveDownAwayFromIt() => Assert.True(new WedgeField(View, 1.5, 1, 90).At(0, 0).V > 0);

    [Fact]
    public void Sinusoid_QuarterWave_IsAtItsAmplitude()
    {
        var wave = new SinusoidField(0.5, -0.2, 64);
        Assert.Equal(0.5, wave.At(16, 7).U, 1e-12);
        Assert.Equal(-0.2, wave.At(16, 99).V, 1e-12);
        Assert.Equal(0.5, (wave with { DirectionDegrees = 90 }).At(7, -16).U, 1e-12);
    }

    [Fact]
    public void Linear_Strain_GrowsFromItsCentre()
    {
        var field = new LinearField(1, 2, 10, 20, 0.01, 0.02, -0.03, 0.04);
        FlowSample sample = field.At(15, 30);
        Assert.Equal(1 + 0.05 + 0.2, sample.U, 1e-12);
        Assert.Equal(2 - 0.15 + 0.4, sample.V, 1e-12);
        Assert.True(double.IsNaN(sample.IndexGradientPathX));
    }
}
