using BosFlow.Results.Plots;

namespace BosFlow.Results.Report;

/// <summary>The curves of the report over the frames of the run.</summary>
internal static class ReportPlots
{
    public static byte[] NoiseFloor(FrameCurves curves) => CurvePlot.Render(
        new PlotFrame(curves.Label, "noise floor (px)") { FromZero = true },
        [curves.Of("u", f => f.NoiseFloorU), curves.Of("v", f => f.NoiseFloorV) with { Colour = 1 }]);

    public static byte[] Light(FrameCurves curves) => CurvePlot.Render(
        new PlotFrame(curves.Label, "level over the reference's (1)"),
        [
            curves.Of("whole frame", f => f.Light.Gain),
            curves.Of("darkest part", f => f.Light.Gain * f.Light.LowestShare) with { Colour = 1 },
            curves.Of("brightest part", f => f.Light.Gain * f.Light.HighestShare) with { Colour = 2 },
        ]);

    /// <param name="curves">The frames.</param>
    /// <param name="width">Width of the pictures, px.</param>
    /// <param name="height">Height of the pictures, px.</param>
    public static byte[] Shake(FrameCurves curves, int width, int height) => CurvePlot.Render(
        new PlotFrame(curves.Label, "shift of the background (px)"),
        [
            curves.Of("to the right", f => Runs.Shake.Of(f.Motion, width, height).U),
            curves.Of("downwards", f => Runs.Shake.Of(f.Motion, width, height).V) with { Colour = 1 },
        ]);
}
