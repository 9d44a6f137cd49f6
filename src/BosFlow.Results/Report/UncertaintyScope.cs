using BosFlow.Density;
using BosFlow.Pipeline;

namespace BosFlow.Results.Report;

/// <summary>What the stated uncertainties include and what they leave out, true for the run at hand.</summary>
internal static class UncertaintyScope
{
    private const string Never = "blur of the flow by the finite aperture, and the averaging over the interrogation window, which lowers peaks narrower than the window";

    public static IEnumerable<string> Paragraphs(RunSummary summary)
    {
        if (summary.Scale is null)
        {
            yield return $"Not included in the stated uncertainties: {Never}.";
            yield break;
        }

        const string inputs = "errors of the distances and of the scale (an error of 1 % in either changes every gradient by about 1 %), errors of the Gladstone-Dale coefficient";
        if (summary.Density is not { Fields.Count: > 0 } density)
        {
            yield return $"Not included in the stated uncertainties: {inputs}, {Never}.";
            yield break;
        }

        yield return $"Not included in the stated uncertainties of displacement, deflection and gradients: {inputs}, {Never}.";
        yield return Density(density);
    }

    private static string Density(DensityResult density)
    {
        string what = density.Fields.Any(f => f.Name == "temperature") ? "density and temperature" : "the density";
        string assumption = density.Shape switch
        {
            FlowShape.Axisymmetric => ", and departures of the flow from roundness",
            FlowShape.Planar => ", and changes of the flow along the line of sight",
            _ => string.Empty,
        };
        string included = density.Budget is { } budget
            ? $"include: {List(budget.Lines.Where(l => l.IsStated))}. {Missing([.. budget.Lines.Where(l => !l.IsStated)])}"
            : "include the noise of the measurement and those distances, scales and states of the gas whose uncertainty the case states; the warnings name the others. ";
        return $"The stated uncertainties of {what} {included}Not included in any case: {Never}{assumption}.";
    }

    private static string Missing(IReadOnlyList<BudgetLine> lines) => lines.Count == 0
        ? string.Empty
        : $"Not included, because their uncertainty is not stated: {List(lines)}. ";

    private static string List(IEnumerable<BudgetLine> lines) => string.Join("; ", lines.Select(l => l.Source));
}
