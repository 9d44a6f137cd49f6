namespace BosFlow.Registration;

/// <summary>Searches the readout time that explains the shifts of rows best.</summary>
internal static class ReadoutSearch
{
    private const double Step = 0.05;     // frame periods: the likelihood is smooth over a tenth of a period of the fastest vibration
    private const double Narrow = 0.002;
    private const double SlopeStep = 0.01;
    private const double ClearLead = 8;   // in logarithms of the likelihood: four standard deviations
    private const double Golden = 0.6180339887498949;

    /// <summary>Searches.</summary>
    /// <param name="samples">The shifts.</param>
    /// <param name="highest">Highest frequency of the vibration, per frame period.</param>
    /// <param name="threads">Threads, at least 1.</param>
    /// <param name="cancellationToken">Stops between two trials.</param>
    /// <returns>Readout and its standard uncertainty, frame periods; null where the samples do not tell it.</returns>
    public static (double Readout, double Sigma)? Find(RowShakeSamples samples, double highest, int threads, CancellationToken cancellationToken)
    {
        double[] trials = [.. Enumerable.Range(0, (int)Math.Round(1 / Step) + 1).Select(i => i * Step)];
        double[] values = new double[trials.Length];
        Parallel.For(0, trials.Length, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancellationToken },
            () => new VibrationLikelihood(samples, highest),
            (i, _, likelihood) =>
            {
                values[i] = likelihood.Of(trials[i]);
                return likelihood;
            },
            _ => { });
        int best = Array.IndexOf(values, values.Max());
        if (!double.IsFinite(values[best]) || HasRival(values, best))
            return null;
        var fine = new VibrationLikelihood(samples, highest);
        double peak = Peak(fine, Math.Max(0, trials[best] - Step), Math.Min(1, trials[best] + Step), cancellationToken);
        (double below, double at, double above) = (fine.Of(peak - SlopeStep), fine.Of(peak), fine.Of(peak + SlopeStep));
        double bend = ((2 * at) - below - above) / (SlopeStep * SlopeStep);
        if (!(bend > 0))
            return null;
        double shift = (above - below) / (2 * SlopeStep) / bend;
        return (peak + Math.Clamp(shift, -SlopeStep, SlopeStep), 1 / Math.Sqrt(bend));
    }

    // Another maximum that is nearly as likely: a vibration of one tone fits several readouts.
    private static bool HasRival(double[] values, int best)
    {
        for (int i = 0; i < values.Length; i++)
        {
            bool isPeak = (i == 0 || values[i] >= values[i - 1]) && (i == values.Length - 1 || values[i] >= values[i + 1]);
            if (isPeak && Math.Abs(i - best) > 1 && values[i] > values[best] - ClearLead)
                return true;
        }

        return false;
    }

    private static double Peak(VibrationLikelihood likelihood, double low, double high, CancellationToken cancellationToken)
    {
        (double left, double right) = (high - (Golden * (high - low)), low + (Golden * (high - low)));
        (double ofLeft, double ofRight) = (likelihood.Of(left), likelihood.Of(right));
        while (high - low > Narrow)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (ofLeft < ofRight)
            {
                (low, left, ofLeft) = (left, right, ofRight);
                right = low + (Golden * (high - low));
                ofRight = likelihood.Of(right);
            }
            else
            {
                (high, right, ofRight) = (right, left, ofLeft);
                left = high - (Golden * (high - low));
                ofLeft = likelihood.Of(left);
            }
        }

        return (low + high) / 2;
    }
}
