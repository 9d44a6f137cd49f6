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

    private static void AssertClose(double expected, double actual) => Assert.InRange(actual / expected, 1 - ThreeDigits, 1 + ThreeDigits);
}
