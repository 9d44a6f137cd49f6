using BosFlow.Numerics.Robust;

namespace BosFlow.Pipeline;

/// <summary>Medians over the frames of a run.</summary>
public static class RunMedian
{
    /// <summary>Median of the values that are not NaN, the mean of the middle two of an even number; NaN where there are none.</summary>
    /// <param name="values">One value a frame, in any order.</param>
    public static double Of(IEnumerable<double> values) => Quantiles.Median<double>([.. values.Where(value => !double.IsNaN(value))]);
}
