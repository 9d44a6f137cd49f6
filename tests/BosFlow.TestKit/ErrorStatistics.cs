namespace BosFlow.TestKit;

/// <summary>
/// Errors of measured values against their truth. A measured NaN is a missing value: it is counted, and takes no part
/// in the other figures.
/// </summary>
public sealed class ErrorStatistics
{
    private readonly double[] sortedMagnitudes;

    private ErrorStatistics(double[] errors, int missing)
    {
        Count = errors.Length;
        Missing = missing;
        Bias = errors.Length == 0 ? double.NaN : errors.Average();
        double bias = Bias;
        Rms = Math.Sqrt(errors.Length == 0 ? double.NaN : errors.Average(error => error * error));
        Spread = Math.Sqrt(errors.Length == 0 ? double.NaN : errors.Average(error => (error - bias) * (error - bias)));
        sortedMagnitudes = [.. errors.Select(Math.Abs).Order()];
    }

    /// <summary>Number of values that were measured.</summary>
    public int Count { get; }

    /// <summary>Number of values that are NaN although there is a truth.</summary>
    public int Missing { get; }

    /// <summary>Mean of measured minus true.</summary>
    public double Bias { get; }

    /// <summary>Root of the mean squared error, bias included.</summary>
    public double Rms { get; }

    /// <summary>Standard deviation of the error about its bias (divided by the count, not by the count less one).</summary>
    public double Spread { get; }

    /// <summary>Largest magnitude of the error; NaN where nothing was measured.</summary>
    public double Worst => Percentile(100);

    /// <summary>Compares measured values with their truth, entry by entry.</summary>
    /// <param name="measured">Measured values; NaN = missing.</param>
    /// <param name="truth">True values, same length and unit; an entry whose truth is NaN is left out altogether.</param>
    /// <returns>The figures, in the unit of the values.</returns>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static ErrorStatistics Of(ReadOnlySpan<float> measured, ReadOnlySpan<double> truth)
    {
        if (measured.Length != truth.Length)
            throw new ArgumentException($"{measured.Length} measured values for {truth.Length} true ones.", nameof(measured));
        var errors = new List<double>(measured.Length);
        int missing = 0;
        for (int i = 0; i < measured.Length; i++)
        {
            if (double.IsNaN(truth[i]))
                continue;
            if (float.IsNaN(measured[i]))
                missing++;
            else
                errors.Add(measured[i] - truth[i]);
        }

        return new ErrorStatistics([.. errors], missing);
    }

    /// <summary>Magnitude of the error below which a share of the values lies, interpolated linearly between order statistics.</summary>
    /// <param name="percent">Share of the values, 0 to 100.</param>
    /// <returns>The magnitude, in the unit of the values; NaN where nothing was measured.</returns>
    public double Percentile(double percent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(percent);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(percent, 100);
        if (sortedMagnitudes.Length == 0)
            return double.NaN;
        double place = percent / 100 * (sortedMagnitudes.Length - 1);
        int below = (int)place;
        int above = Math.Min(below + 1, sortedMagnitudes.Length - 1);
        return sortedMagnitudes[below] + ((place - below) * (sortedMagnitudes[above] - sortedMagnitudes[below]));
    }
}
