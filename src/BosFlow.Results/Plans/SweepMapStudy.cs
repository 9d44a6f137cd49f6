using System.Text.Json.Nodes;
using BosFlow.Planning;
using static BosFlow.Results.Plans.PlanFigures;

namespace BosFlow.Results.Plans;

/// <summary>The ratio of signal to noise over two quantities.</summary>
public static class SweepMapStudy
{
    /// <summary>Table and picture.</summary>
    /// <param name="plan">The plan with its own values.</param>
    /// <param name="across">What is varied from column to column.</param>
    /// <param name="down">What is varied from row to row.</param>
    /// <param name="rows">For each value of <paramref name="down"/> one plan for each value of <paramref name="across"/>.</param>
    public static PlanStudy Of(PlanResult plan, SweepAxis across, SweepAxis down, IReadOnlyList<IReadOnlyList<PlanStep>> rows)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(across);
        ArgumentNullException.ThrowIfNull(down);
        ArgumentNullException.ThrowIfNull(rows);
        string title = $"Ratio of signal to noise over {across.Label} and {down.Label}";
        return new PlanStudy
        {
            FileName = SweepStudy.FileName,
            Title = title,
            Note = Note(plan, across, down, rows),
            Caption = $"Displacement of {SweptSignal.Subject(plan)} over its noise in one frame, over {across.Title} and {down.Title}. Lines: ratios as labelled; a flow is seen from 3 on and quantified from 10 on. Grey: no such rig. The cross is the plan as it is.",
            Columns = [$"{down.Name} \\ {across.Name}", .. across.Values.Select(across.Text)],
            Rows = [.. rows.Select((row, i) => (IReadOnlyList<string>)[down.Text(down.Values[i]), .. row.Select(step => step.Result is { } judged ? Text(SweptSignal.Ratio(judged)) : "-")])],
            Png = SweepMap.Render(title, plan, across, down, [.. rows.Select(row => row.Select(step => step.Result is { } judged ? SweptSignal.Ratio(judged) : double.NaN).ToArray())]),
            Document = Document(across, down, rows),
        };
    }

    private static string Note(PlanResult plan, SweepAxis across, SweepAxis down, IReadOnlyList<IReadOnlyList<PlanStep>> rows)
    {
        var best = rows.SelectMany((row, i) => row.Select(step => (Step: step, Down: down.Values[i]))).Where(cell => cell.Step.Result is not null).MaxBy(cell => SweptSignal.Ratio(cell.Step.Result!));
        string present = across.Present(plan) is double x && down.Present(plan) is double y ? $"The plan as it is: {across.Name} {Text(x)}, {down.Name} {Text(y)}, ratio {Text(SweptSignal.Ratio(plan))}. " : string.Empty;
        string largest = best.Step?.Result is { } judged
            ? $"Largest ratio for {SweptSignal.Subject(plan)}: {Text(SweptSignal.Ratio(judged))} at {across.Name} {across.Text(best.Step.Value)}, {down.Name} {down.Text(best.Down)}."
            : "None of these values makes a rig that can be.";
        string? reason = rows.SelectMany(row => row).Select(step => step.Problem).FirstOrDefault(problem => problem is not null);
        return reason is null ? present + largest : $"{present}{largest} Some cannot be, the first because: {reason}";
    }

    private static JsonObject Document(SweepAxis across, SweepAxis down, IReadOnlyList<IReadOnlyList<PlanStep>> rows) => new()
    {
        ["across"] = across.Name,
        ["across_values"] = Numbers(across),
        ["down"] = down.Name,
        ["down_values"] = Numbers(down),
        ["ratio"] = new JsonArray([.. rows.Select(row => (JsonNode)new JsonArray([.. row.Select(step => PlanJson.Number(step.Result is { } judged ? SweptSignal.Ratio(judged) : null))]))]),
    };

    private static JsonArray Numbers(SweepAxis axis) => new([.. axis.Values.Select(value => PlanJson.Number(value * axis.UnitsPerSi))]);
}
