using BosFlow.Pipeline;

namespace BosFlow.Results.Report;

/// <summary>The curves of the report.</summary>
internal static class ReportPlots
{
    public static byte[] NoiseFloor(RunSummary summary)
    {
        (string label, double[] x) = Abscissa(summary.Frames);
        return TimePlot.Render(
            label, x, "noise floor (px)", fromZero: true,
            [("u", Values(summary, f => f.NoiseFloorU)), ("v", Values(summary, f => f.NoiseFloorV))]);
    }

    public static byte[] Shake(RunSummary summary)
    {
        (string label, double[] x) = Abscissa(summary.Frames);
        int width = summary.Reference.Image.Width;
        int height = summary.Reference.Image.Height;
        return TimePlot.Render(
            label, x, "shift of the background (px)", fromZero: false,
            [
                ("to the right", Values(summary, f => Runs.Shake.Of(f.Motion, width, height).U)),
                ("downwards", Values(summary, f => Runs.Shake.Of(f.Motion, width, height).V)),
            ]);
    }

    private static double[] Values(RunSummary summary, Func<FrameRecord, double> value) => [.. summary.Frames.Select(f => f.Failure is null ? value(f) : double.NaN)];

    private static (string Label, double[] X) Abscissa(IReadOnlyList<FrameRecord> frames) => frames.All(f => double.IsFinite(f.TimeSeconds))
        ? ("time (s)", [.. frames.Select(f => f.TimeSeconds)])
        : ("number of the frame", [.. frames.Select(f => (double)f.Index)]);
}
