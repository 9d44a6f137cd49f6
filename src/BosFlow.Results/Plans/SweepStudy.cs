using System.Text.Json.Nodes;
using BosFlow.Planning;
using static BosFlow.Results.Plans.PlanFigures;

namespace BosFlow.Results.Plans;

/// <summary>A plan over many values of one quantity.</summary>
public static class SweepStudy
{
    /// <summary>Name of the picture.</summary>
    public const string FileName = "sweep.png";

    private const string None = "-";

    /// <summary>Table and picture.</summary>
    /// <param name="plan">The plan with its own value.</param>
    /// <param name="axis">What is varied.</param>
    /// <param name="steps">One plan for each value.</param>
    public static PlanStudy Of(PlanResult plan, SweepAxis axis, IReadOnlyList<PlanStep> steps)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(axis);
        ArgumentNullException.ThrowIfNull(steps);
        string subject = SweptSignal.Subject(plan);
        return new PlanStudy
        {
            FileName = FileName,
            Title = $"Over the {axis.Label}",
            Note = Note(plan, axis, steps),
            Caption = $"Displacement of {subject} in px, its noise in one frame in px, their ratio, width of a ray bundle at the flow in mm, wavelength of which half is left in mm, and width of the view in mm, over the {axis.Title}. Dashed: the plan as it is. Dotted: ratios of 3 and 10, from which a flow is seen and quantified.",
            Columns = [axis.Name, "displacement (px)", "noise (px)", "ratio", "ray bundle at flow (mm)", "half left of (mm)", "depth of field (mm)", "dot (mm)", "view at flow (mm)"],
            Rows = [.. steps.Select(step => Row(axis, step))],
            Png = SweepPlot.Render(plan, axis, steps),
            Document = Document(axis, steps),
        };
    }

    private static IReadOnlyList<string> Row(SweepAxis axis, PlanStep step) => step.Result is not { } plan
        ? [axis.Text(step.Value), None, None, None, None, None, None, None, None]
        :
        [
            axis.Text(step.Value), Text(SweptSignal.Displacement(plan)), Text(plan.NoisePixels), Text(SweptSignal.Ratio(plan)), Text(plan.FlowBlurMetres * 1e3), Text(plan.HalfResponseWavelengthMetres * 1e3),
            Text((plan.DepthOfField.Far - plan.DepthOfField.Near) * 1e3), Text(plan.DotMetres * 1e3), Text(plan.ViewAtFlow.Width * 1e3),
        ];

    private static string Note(PlanResult plan, SweepAxis axis, IReadOnlyList<PlanStep> steps)
    {
        string present = axis.Present(plan) is double value ? $"The plan as it is has {Text(value)}{(axis.Unit.Length > 0 ? " " + axis.Unit : string.Empty)}. " : string.Empty;
        PlanStep? best = steps.Where(step => step.Result is not null).MaxBy(step => SweptSignal.Ratio(step.Result!));
        string largest = best is null
            ? "None of these values makes a rig that can be. "
            : $"The largest ratio for {SweptSignal.Subject(plan)}, {Text(SweptSignal.Ratio(best.Result!))}, is at {axis.Text(best.Value)}. ";
        string[] reasons = [.. steps.Where(step => step.Problem is not null).GroupBy(step => step.Problem!).Take(2).Select(group => $"{string.Join(", ", group.Select(step => axis.Text(step.Value)))} cannot be: {group.Key}")];
        return (present + largest + string.Join(" ", reasons)).TrimEnd();
    }

    private static JsonObject Document(SweepAxis axis, IReadOnlyList<PlanStep> steps) => new()
    {
        ["quantity"] = axis.Name,
        ["steps"] = new JsonArray([.. steps.Select(step => (JsonNode)new JsonObject
        {
            [axis.Name] = PlanJson.Number(step.Value * axis.UnitsPerSi),
            ["displacement_px"] = PlanJson.Number(step.Result is { } plan ? SweptSignal.Displacement(plan) : null),
            ["noise_px"] = PlanJson.Number(step.Result?.NoisePixels),
            ["ratio"] = PlanJson.Number(step.Result is { } judged ? SweptSignal.Ratio(judged) : null),
            ["flow_blur_m"] = PlanJson.Number(step.Result?.FlowBlurMetres),
            ["half_response_wavelength_m"] = PlanJson.Number(step.Result?.HalfResponseWavelengthMetres),
            ["depth_of_field_near_m"] = PlanJson.Number(step.Result?.DepthOfField.Near),
            ["depth_of_field_far_m"] = PlanJson.Number(step.Result?.DepthOfField.Far),
            ["dot_m"] = PlanJson.Number(step.Result?.DotMetres),
            ["view_width_m"] = PlanJson.Number(step.Result?.ViewAtFlow.Width),
            ["problem"] = step.Problem,
        })]),
    };
}
