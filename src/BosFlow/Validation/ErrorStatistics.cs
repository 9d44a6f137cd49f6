namespace BosFlow.Validation;

/// <summary>Errors of measured values against the truth, together with the uncertainty that was stated for each.</summary>
public sealed class ErrorStatistics
{
    private readonly List<double> errors = [];
    private int withinOneSigma;
    private int within95;
    private int withinTwoSigma;
    private double squaredSigmas;

    /// <summary>Adds one value; values that were not measured (NaN) are counted apart.</summary>
    /// <param name="measured">Measured value.</param>
    /// <param name="truth">True value.</param>
    /// <param name="sigma">Standard uncertainty that was stated.</param>
    public void Add(double measured, double truth, double sigma)
    {
        double error = measured - truth;
        if (double.IsNaN(error))
        {
            Missing++;
            return;
        }

        errors.Add(error);
        squaredSigmas += sigma * sigma;
        if (Math.Abs(error) <= sigma)
            withinOneSigma++;
        if (Math.Abs(error) <= 1.959963985 * sigma)
            within95++;
        if (Math.Abs(error) <= 2 * sigma)
            withinTwoSigma++;
    }

    /// <summary>Adds all values of another collection.</summary>
    /// <param name="other">The other one.</param>
    public void Add(ErrorStatistics other)
    {
        ArgumentNullException.ThrowIfNull(other);
        errors.AddRange(other.errors);
        withinOneSigma += other.withinOneSigma;
        within95 += other.within95;
        withinTwoSigma += other.withinTwoSigma;
        squaredSigmas += other.squaredSigmas;
        Missing += other.Missing;
    }

    /// <summary>Number of values that were measured.</summary>
    public int Count => errors.Count;

    /// <summary>Number of values that were not measured.</summary>
    public int Missing { get; private set; }

    /// <summary>Mean error; NaN without values.</summary>
    public double Bias => errors.Count == 0 ? double.NaN : errors.Average();

    /// <summary>Root mean square of the errors; NaN without values.</summary>
    public double Rms => errors.Count == 0 ? double.NaN : Math.Sqrt(errors.Average(error => error * error));

    /// <summary>Root mean square of the stated sigmas of the values that were measured; NaN without values.</summary>
    public double StatedRms => Math.Sqrt(squaredSigmas / errors.Count);

    /// <summary>Standard deviation of the errors about their mean; NaN without values.</summary>
    public double Deviation => Math.Sqrt(Math.Max(0, (Rms * Rms) - (Bias * Bias)));

    /// <summary>Share of the errors within the stated sigma; 0.683 for an honest one.</summary>
    public double CoverageOneSigma => (double)withinOneSigma / errors.Count;

    /// <summary>Share of the errors within 1.96 stated sigmas; 0.95 for an honest one.</summary>
    public double Coverage95 => (double)within95 / errors.Count;

    /// <summary>Share of the errors within two stated sigmas; 0.954 for an honest one.</summary>
    public double CoverageTwoSigma => (double)withinTwoSigma / errors.Count;

    /// <summary>A quantile of the absolute errors; NaN without values.</summary>
    /// <param name="share">0 to 1.</param>
    public double AbsoluteQuantile(double share)
    {
        if (errors.Count == 0)
            return double.NaN;
        double[] sorted = [.. errors.Select(Math.Abs)];
        Array.Sort(sorted);
        return sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];
    }
}
