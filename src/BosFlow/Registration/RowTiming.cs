namespace BosFlow.Registration;

/// <summary>From the times of camera and vibration to the intervals between which the motion of the rows may bend.</summary>
public static class RowTiming
{
    /// <summary>Vibration that is followed where nothing else is asked for, in frame rates.</summary>
    public const double DefaultVibrationInFrameRates = 3;

    // A cubic spline follows a sinusoid to 0.1 % of its amplitude with six intervals a period; the rows of a frame are seen against the rows of a reference
    // that was shaken too, which doubles the highest frequency of their difference.
    private const double IntervalsForEachPeriod = 12;
    private const int FewestIntervals = 4;

    /// <summary>Completes the settings for footage of a known rate.</summary>
    /// <param name="settings">Readout and highest vibration as given.</param>
    /// <param name="timesSeconds">Times of the frames, s; NaN where none is known.</param>
    /// <param name="pictureHeight">Height of the picture, px.</param>
    /// <param name="windowPixels">Side of the final window, px: knots are no closer, since windows see no faster change.</param>
    /// <exception cref="InputDataException">The readout takes longer than a frame, or the vibration to follow is not known.</exception>
    public static RegistrationSettings Complete(RegistrationSettings settings, IReadOnlyList<double> timesSeconds, int pictureHeight, int windowPixels)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(timesSeconds);
        if (settings.ReadoutSeconds == 0)
            return settings;
        double period = ShortestPeriod(timesSeconds);
        if (settings.ReadoutSeconds > period)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"registration.readout_ms = {settings.ReadoutSeconds * 1e3:0.###} is longer than the time between two frames, {period * 1e3:0.###} ms: no camera reads its rows that slowly; give the time from the first row to the last."));
        }

        double? hertz = settings.HighestVibrationHertz ?? (double.IsFinite(period) ? DefaultVibrationInFrameRates / period : null);
        if (hertz is null)
            throw new InputDataException("The footage has no times, so that registration.readout_ms does not say how fast the rows may move: give registration.highest_vibration_hz, or footage.frame_rate_hz.");
        int most = Math.Min(pictureHeight / windowPixels, RegistrationSettings.MostRowIntervals);
        int intervals = (int)Math.Min(Math.Ceiling(IntervalsForEachPeriod * settings.ReadoutSeconds * hertz.Value), most);
        return settings with { RowIntervals = Math.Max(intervals, FewestIntervals) };
    }

    /// <summary>The frame period: the shortest time between neighbours, since frames may have been dropped between others.</summary>
    /// <param name="times">Times of the frames, s; NaN where none is known.</param>
    /// <returns>Seconds; infinite where no two times are known.</returns>
    public static double ShortestPeriod(IReadOnlyList<double> times)
    {
        ArgumentNullException.ThrowIfNull(times);
        double shortest = double.PositiveInfinity;
        for (int i = 1; i < times.Count; i++)
        {
            double period = times[i] - times[i - 1];
            if (period > 0 && period < shortest)
                shortest = period;
        }

        return shortest;
    }
}
