using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Finds the readout time of a rolling shutter from shaken footage itself.</summary>
/// <remarks>
/// The rows of some frames are followed against the first of them on the undisturbed region. A row is read at t_k + readout * row / (height - 1), and only the true readout makes
/// the bending within the frames and the motion between them one steady vibration (<see cref="VibrationLikelihood"/>). The same frames give the same value.
/// </remarks>
public static class ReadoutEstimator
{
    /// <summary>Frames that are looked at: with 16 a slow shake may fit a false readout as well, more than 24 give little more certainty.</summary>
    public const int Frames = 24;

    private const int FewestFrames = 12;
    private const double HighestPerPeriod = 8;      // the time that a search takes grows with it
    private const double LargestSigma = 0.05;       // frame periods: a readout that is worse known chooses no knots
    private const double LeastReadout = 0.01;       // frame periods: below it all rows are read at once for every purpose
    private const double StandardDeviations = 3;
    private const double ModelShare = 0.003;        // what the spline through a frame's rows and the steps of frequency leave, part of the readout (tried on scenes)

    /// <summary>Finds the readout time.</summary>
    /// <param name="frames">Frames in the order of their time, read one at a time; the first usable one serves as reference.</param>
    /// <param name="region">Where there is no flow; of the frames' size.</param>
    /// <param name="settings">Motion model, largest shift and highest vibration.</param>
    /// <param name="periodSeconds">Time between two neighbouring frames of the footage, s, greater than 0.</param>
    /// <param name="windowPixels">Side of the final window, px: as for <see cref="RowTiming"/>.</param>
    /// <param name="threads">Threads, at least 1; the value does not depend on them.</param>
    /// <param name="cancellationToken">Stops between two frames and between two trials.</param>
    /// <returns>The readout time with its uncertainty.</returns>
    /// <exception cref="InputDataException">The frames do not tell it; the sentence says why and what to do.</exception>
    public static ReadoutEstimate Estimate(
        IEnumerable<Frame> frames, RegionMask region, RegistrationSettings settings, double periodSeconds, int windowPixels, int threads, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(frames);
        ArgumentNullException.ThrowIfNull(region);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentOutOfRangeException.ThrowIfLessThan(threads, 1);
        double highest = Math.Min(settings.HighestVibrationHertz * periodSeconds ?? RowTiming.DefaultVibrationInFrameRates, HighestPerPeriod);
        RegistrationSettings widest = RowTiming.Complete(settings with { ReadoutSeconds = periodSeconds }, [0, periodSeconds], region.Undisturbed.Height, windowPixels);
        (RowShakeSamples samples, int count) = Follow(frames, region, widest, periodSeconds, cancellationToken);
        if (count < FewestFrames)
            throw Unknown(FormattableString.Invariant($"only {count} frames can be followed row by row, and {FewestFrames} are needed"));
        if (ReadoutSearch.Find(samples, highest, threads, cancellationToken) is not (double readout, double sigma) || sigma > LargestSigma)
            throw Unknown(FormattableString.Invariant($"the shake in {count} frames is too small or too uniform to tell it"));
        sigma = double.Hypot(sigma, ModelShare * readout);
        if (readout - (StandardDeviations * sigma) < LeastReadout)
            throw new InputDataException(FormattableString.Invariant($"The rows of the footage are read at once as far as its shake tells ({readout * periodSeconds * 1e3:0.00} ms, standard uncertainty {sigma * periodSeconds * 1e3:0.00} ms): write registration.readout_ms = 0."));
        return new ReadoutEstimate(Rounded(readout * periodSeconds), Rounded(sigma * periodSeconds), count);
    }

    private static (RowShakeSamples Samples, int Count) Follow(IEnumerable<Frame> frames, RegionMask region, RegistrationSettings settings, double period, CancellationToken cancellationToken)
    {
        var samples = new RowShakeSamples();
        GrayImage? first = null;
        IMotionEstimator? estimator = null;
        double start = 0;
        int count = 0;
        foreach (Frame frame in frames)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (ReferenceFrameCheck.Failure(frame, region.Measurable) is not null)
                continue;
            if (first is null)
            {
                (first, start) = (frame.Image!, frame.TimeSeconds);
                estimator = MotionEstimators.Of(first, region.Undisturbed, settings);
                if (estimator.Unusable is not null)
                    throw Unknown("the undisturbed region offers too few places with texture to follow its rows by");
                samples.AddReference(0);
                count++;
                continue;
            }

            MotionEstimate estimate = estimator!.Estimate(GrayLevels.Match(frame.Image!, first).Image, cancellationToken);
            if (estimate.Failure is not null || LensedMotion.ToIdeal(estimate.Motion) is not RowMotion motion)
                continue;
            samples.Add((frame.TimeSeconds - start) / period, motion);
            count++;
        }

        return (samples, count);
    }

    // To a microsecond: the last bits of a search are nobody's business, and another machine's must not tell two runs apart.
    private static double Rounded(double seconds) => Math.Max(1e-6, Math.Round(seconds, 6));

    private static InputDataException Unknown(string why) =>
        new($"registration.readout_ms = \"estimate\": the readout time cannot be found from this footage, since {why}; give it in ms from the camera's data sheet, or film with more shake.");
}
