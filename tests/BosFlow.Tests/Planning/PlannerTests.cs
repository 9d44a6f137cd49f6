using BosFlow.Camera;
using BosFlow.Planning;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Planning;

/// <summary>Judging a rig; expected numbers of optics are worked by hand.</summary>
public sealed class PlannerTests
{
    private const double ThreeDigits = 2e-3;

    private static PlanRequest Laboratory => new()
    {
        Rig = ReferenceRigs.Laboratory,
        Camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1080 },
        Flow = new ExpectedFlow.Deflection(1e-4, 12e-3),
    };

    private static PlanRequest Onboard => Laboratory with { Rig = ReferenceRigs.Onboard, Flow = new ExpectedFlow.Deflection(2.86e-4, 60e-3) };

    [Fact]
    public void Judge_OfTheLaboratory_GivesTheWorkedNumbers()
    {
        PlanResult plan = Planner.Judge(Laboratory);

        AssertClose(0.0256410, plan.Magnification);
        AssertClose(0.7432, plan.Flow!.DisplacementPixels);
        AssertClose(2.2727e-3, plan.FlowBlurMetres);
        AssertClose(116.55e-6, plan.FlowConfusionMetres);
        AssertClose(15.14e-6, plan.DiffractionSpotMetres);
        AssertClose(0.06728e-3 * 1920, plan.ViewAtFlow.Width);
        AssertClose(0.13455e-3 * 1080, plan.ViewAtBoard.Height);
        Assert.Equal(0, plan.BoardConfusionMetres, 1e-15);
    }

    [Fact]
    public void Judge_OnBoard_GivesTheWorkedNumbers()
    {
        PlanResult plan = Planner.Judge(Onboard);

        AssertClose(3.00903e-3, plan.Magnification);
        AssertClose(0.22209, plan.Flow!.DisplacementPixels);
        AssertClose(0.480e-3, plan.FlowBlurMetres);
        AssertClose(0.30907e-3 * 1920, plan.ViewAtFlow.Width);
    }

    [Fact]
    public void Judge_ShakenFastJet_AdvisesTheExposureForVibrationAndTellsTheFreezingOneApart()
    {
        var camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1080, VibrationRadians = 1e-3, VibrationHertz = 90, ExposureSeconds = 2e-3 };
        var jet = new ExpectedFlow.Jet(0.06, 823, 0.3, 250, null);
        PlanResult plan = Planner.Judge(Onboard with { Camera = camera, Flow = jet });
        PlanResult asAdvised = Planner.Judge(Onboard with { Camera = camera with { ExposureSeconds = plan.RecommendedExposureSeconds }, Flow = jet });

        Assert.Equal(0.3, asAdvised.VibrationSmearPixels!.Value, 1e-9);
        Assert.True(plan.LightChangeStops < 0);

        // Half a window of 32 px, 0.30907 mm/px in the plane of the flow, at 250 m/s.
        AssertClose(16 * 0.30907e-3 / 250, plan.FreezingExposureSeconds!.Value);
    }

    private static void AssertClose(double expected, double actual) => Assert.InRange(actual / expected, 1 - ThreeDigits, 1 + ThreeDigits);
}
