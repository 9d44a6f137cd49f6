namespace BosFlow.Triage;

/// <summary>What the time stamps of all frames tell; no picture is needed.</summary>
/// <param name="IntervalSeconds">Median time from frame to frame, s; NaN where times are not known.</param>
/// <param name="Missing">Frames that gaps in the time stamps leave out.</param>
/// <param name="FirstGapSeconds">Time before the first gap, s; NaN where there is none.</param>
/// <param name="IrregularShare">Share of the intervals that differ from the median by more than a tenth.</param>
/// <param name="Lost">Frames without a time: promised by the file and not there.</param>
public sealed record TimeScan(double IntervalSeconds, int Missing, double FirstGapSeconds, double IrregularShare, int Lost)
{
    private const double Gap = 1.5;
    private const double Regular = 0.1;

    /// <summary>Reads the time stamps.</summary>
    /// <param name="times">Time of each frame, s.</param>
    public static TimeScan Of(IReadOnlyList<double> times)
    {
        ArgumentNullException.ThrowIfNull(times);
        double[] steps = [.. Enumerable.Range(1, Math.Max(0, times.Count - 1)).Select(i => times[i] - times[i - 1])];
        double middle = Spread.Median(steps);
        if (!(middle > 0))
            return new TimeScan(double.NaN, 0, double.NaN, 0, 0);
        int missing = 0;
        double first = double.NaN;
        for (int i = 0; i < steps.Length; i++)
        {
            if (!(steps[i] > Gap * middle))
                continue;
            missing += (int)Math.Min(int.MaxValue / 2, Math.Round(steps[i] / middle) - 1);
            first = double.IsNaN(first) ? times[i] : first;
        }

        return new TimeScan(middle, missing, first, steps.Count(step => Math.Abs(step - middle) > Regular * middle) / (double)steps.Length, times.Count(double.IsNaN));
    }
}
