using System.Globalization;
using BosFlow.Density;

namespace BosFlow.Results.Report;

/// <summary>How much of the variance a line of a budget makes.</summary>
internal static class BudgetShares
{
    /// <summary>Share of the sum of squares of all lines, 0 to 1; NaN where the sum is zero or not known.</summary>
    public static double Of(UncertaintyBudget budget, BudgetLine line)
    {
        double sum = budget.Lines.Where(l => l.IsStated).Sum(l => l.DensityKgM3 * l.DensityKgM3);
        return sum > 0 ? line.DensityKgM3 * line.DensityKgM3 / sum : double.NaN;
    }

    public static string Text(UncertaintyBudget budget, BudgetLine line) => !line.IsStated ? "\u2013" : Of(budget, line) switch
    {
        double.NaN => "share not known",
        < 0.001 => "below 0.1 %",
        double share => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0} %"),
    };
}
