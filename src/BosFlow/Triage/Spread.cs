namespace BosFlow.Triage;

/// <summary>Middle and spread of values; those that are not known are left out.</summary>
internal static class Spread
{
    // Of normal values the median distance from the median is sigma / 1.4826.
    private const double SigmaOverMedianDistance = 1.4826;

    public static double Median(IEnumerable<double> values) => Quantile(values, 0.5);

    /// <summary>Quantile by linear interpolation; NaN where nothing is known.</summary>
    public static double Quantile(IEnumerable<double> values, double share)
    {
        double[] sorted = [.. values.Where(double.IsFinite).Order()];
        if (sorted.Length == 0)
            return double.NaN;
        double place = share * (sorted.Length - 1);
        int below = (int)place;
        int above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((place - below) * (sorted[above] - sorted[below]));
    }

    /// <summary>Robust standard deviation; NaN where nothing is known.</summary>
    public static double Sigma(IReadOnlyCollection<double> values)
    {
        double middle = Median(values);
        return SigmaOverMedianDistance * Median(values.Select(value => Math.Abs(value - middle)));
    }

    /// <summary>Root mean square; NaN where nothing is known.</summary>
    public static double Rms(IEnumerable<double> values)
    {
        double[] known = [.. values.Where(double.IsFinite)];
        return known.Length == 0 ? double.NaN : Math.Sqrt(known.Average(value => value * value));
    }
}
