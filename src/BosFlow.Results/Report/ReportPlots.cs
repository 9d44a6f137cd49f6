using BosFlow.Pipeline;
using BosFlow.Results.Plots;

namespace BosFlow.Results.Report;

/// <summary>The curves of the report over the frames of the run.</summary>
internal static class ReportPlots
{
    public static byte[] NoiseFloor(RunSummary summary)
    {
        (string label, double[] x) = Abscissa(summary.Frames);
        return CurvePlot.Render(
            new PlotFrame(label, "noise floor (px)") { FromZero = true },
            [new("u", x, Values(summary, f => f.NoiseFloorU)), new("v", x, Values(summary, f => f.NoiseFloorV)) { Colour = 1 }]);
    }

    public static byte[] Shake(RunSummary summary)
    {
        (string label, double[] x) = Abscissa(summary.Frames);
        int width = summary.Reference.Image.Width;
        int height = summary.Reference.Image.Height;
        return CurvePlot.Render(
            new PlotFrame(label, "shift of the background (px)"),
            [
                new("to the right", x, Values(summary, f => Runs.Shake.Of(f.Motion, width, height).U)),
                new("downwards", x, Values(summary, f => Runs.Shake.Of(f.Motion, width, height).V)) { Colour = 1 },
            ]);
    }

    private static double[] Values(RunSummary summary, Func<FrameRecord, double> value) => [.. summary.Frames.Select(f => f.Failure is null ? value(f) : double.NaN)];

    private static (string Label, double[] X) Abscissa(IReadOnlyList<FrameRecord> frames) => frames.All(f => double.IsFinite(f.TimeSeconds))
        ? ("time (s)", [.. frames.Select(f => f.TimeSeconds)])
        : ("number of the frame", [.. frames.Select(f => (double)f.Index)]);
}
