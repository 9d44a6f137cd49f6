namespace BosFlow.Pipeline;

/// <summary>Medians over the frames of a run.</summary>
public static class RunMedian
{
    /// <summary>Median of the values that are not NaN, the mean of the middle two of an even number; NaN where there are none.</summary>
    /// <param name="values">One value a frame, in any order.</param>
    public static double Of(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Where(value => !double.IsNaN(value)).Order()];
        if (sorted.Length == 0)
            return double.NaN;
        int half = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
