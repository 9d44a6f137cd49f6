namespace BosFlow.Benchmarks.Reporting;

/// <summary>The middle of several timings.</summary>
internal static class Median
{
    /// <summary>Median; the mean of the two middle values for an even count; NaN where a value is NaN.</summary>
    public static double Of(IReadOnlyCollection<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Any(double.IsNaN) ? double.NaN : (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
