using BosFlow.Planning;
using BosFlow.Results.Maps;
using BosFlow.Results.Plots;
using SkiaSharp;

namespace BosFlow.Results.Plans;

/// <summary>The trade-off over one quantity: six panels, each with a mark at the plan as it is. The same plans give the same bytes.</summary>
internal static class SweepPlot
{
    private const int PanelWidth = 550;
    private const int PanelHeight = 330;
    private const int Columns = 2;

    public static byte[] Render(PlanResult plan, SweepAxis axis, IReadOnlyList<PlanStep> steps)
    {
        (string Label, Func<PlanResult, double> Value, double[] Thresholds)[] panels =
        [
            ("displacement (px)", SweptSignal.Displacement, []),
            ("noise, one frame (px)", step => step.NoisePixels, []),
            ("ratio, one frame", SweptSignal.Ratio, [3, 10]),
            ("ray bundle at flow (mm)", step => step.FlowBlurMetres * 1e3, []),
            ("half left of (mm)", step => step.HalfResponseWavelengthMetres * 1e3, []),
            ("view at flow (mm)", step => step.ViewAtFlow.Width * 1e3, []),
        ];
        byte[][] pictures = [.. panels.Select(panel => Panel(plan, axis, steps, panel.Label, panel.Value, panel.Thresholds))];
        return Png.Draw(PanelWidth * Columns, PanelHeight * ((panels.Length + Columns - 1) / Columns), ink =>
        {
            for (int i = 0; i < pictures.Length; i++)
            {
                using SKBitmap picture = SKBitmap.Decode(pictures[i]);
                ink.Canvas.DrawBitmap(picture, i % Columns * PanelWidth, i / Columns * PanelHeight);
            }
        });
    }

    private static byte[] Panel(PlanResult plan, SweepAxis axis, IReadOnlyList<PlanStep> steps, string label, Func<PlanResult, double> value, double[] thresholds)
    {
        double[] x = [.. steps.Select(step => step.Value * axis.UnitsPerSi)];
        double[] y = [.. steps.Select(step => step.Result is { } judged ? value(judged) : double.NaN)];
        double now = value(plan);
        double[] known = [.. y.Where(double.IsFinite).Append(now)];
        (double low, double high) = (known.Min(), known.Max());
        List<PlotCurve> curves = [new(string.Empty, x, y)];
        foreach (double threshold in thresholds.Where(threshold => threshold >= low && threshold <= high))
            curves.Add(new PlotCurve(string.Empty, [x[0], x[^1]], [threshold, threshold]) { Colour = 4, Weight = CurveWeight.Dotted });
        if (axis.Present(plan) is double present && present >= x[0] && present <= x[^1])
            curves.Add(new PlotCurve(string.Empty, [present, present], [low, high]) { Colour = 1, Weight = CurveWeight.Dashed });
        return CurvePlot.Render(new PlotFrame(axis.Title, label) { Width = PanelWidth, Height = PanelHeight }, curves);
    }
}
