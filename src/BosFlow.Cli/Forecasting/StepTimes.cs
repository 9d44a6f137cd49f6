using BosFlow.Pipeline;

namespace BosFlow.Cli.Forecasting;

/// <summary>Notes when a run began each step and finished each frame, by a monotonic clock.</summary>
/// <param name="clock">The clock.</param>
internal sealed class StepTimes(TimeProvider clock) : IProgress<RunProgress>
{
    // The median of this many blocks' scatter tells how sure the mean is; fewer would tell nothing.
    private const int Blocks = 4;

    private readonly long start = clock.GetTimestamp();
    private readonly Lock gate = new();
    private readonly List<double> frames = [];
    private double referenceEnd = double.NaN;
    private double framesEnd = double.NaN;

    /// <summary>Time until the reference picture was there, s.</summary>
    public double ReferenceSeconds => referenceEnd;

    /// <summary>Time from the first frame to the last, s.</summary>
    public double FramesSeconds => framesEnd - referenceEnd;

    /// <summary>Time from the last frame to the end, s.</summary>
    public double SummarySeconds => clock.GetElapsedTime(start).TotalSeconds - framesEnd;

    /// <inheritdoc/>
    public void Report(RunProgress value)
    {
        double now = clock.GetElapsedTime(start).TotalSeconds;
        lock (gate)
        {
            if (value.Step == RunStep.Frames && double.IsNaN(referenceEnd))
                referenceEnd = now;
            else if (value.Step == RunStep.Frames)
                frames.Add(now);
            if (value.Step == RunStep.Summary)
                framesEnd = now;
        }
    }

    /// <summary>Mean time between two finished frames and its standard uncertainty, s.</summary>
    /// <param name="threads">Frames measured side by side: the first of them fill the machine and do not count, where others follow.</param>
    public (double Seconds, double Sigma) Pace(int threads)
    {
        double[] times = frames.Count > 2 * threads ? [.. frames.Skip(threads - 1)] : [referenceEnd, .. frames];
        int intervals = times.Length - 1;
        double mean = (times[^1] - times[0]) / intervals;
        int size = intervals / Blocks;
        if (size == 0)
            return (mean, mean / 2);
        double[] means = [.. Enumerable.Range(0, Blocks).Select(block => (times[(block + 1) * size] - times[block * size]) / size)];
        double average = means.Average();
        return (mean, Math.Sqrt(means.Sum(value => (value - average) * (value - average)) / (Blocks - 1) / Blocks));
    }
}
