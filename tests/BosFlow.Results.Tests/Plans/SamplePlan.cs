using BosFlow.Camera;
using BosFlow.Optics;
using BosFlow.Planning;

namespace BosFlow.Results.Tests.Plans;

/// <summary>A plan for the tests: a candle seen by a 50 mm lens.</summary>
internal static class SamplePlan
{
    public static PlanRequest Request { get; } = new()
    {
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 0.6, FocalLengthMetres = 0.05, PixelPitchMetres = 5.9e-6, FNumber = 8 },
        Camera = new CameraFacts { PictureWidth = 3000, PictureHeight = 2000 },
        Flow = new ExpectedFlow.Plume(0.01, 573.15, null),
    };

    public static PlanResult Result { get; } = Planner.Judge(Request, CancellationToken.None);
}
