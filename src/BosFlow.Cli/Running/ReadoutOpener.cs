using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Cli.Running;

/// <summary>Completes what a case says of the readout: finds it from the footage where it is asked to, and chooses the knots.</summary>
internal static class ReadoutOpener
{
    /// <summary>The registration with everything that a run needs.</summary>
    /// <param name="experiment">The case.</param>
    /// <param name="footage">The opened footage.</param>
    /// <param name="threads">Threads, at least 1.</param>
    /// <param name="remark">Told of a step that takes long.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    /// <exception cref="InputDataException">The footage does not tell the readout, or its times do not suit it.</exception>
    public static RegistrationSettings Complete(ExperimentCase experiment, IFootage footage, int threads, Action<string> remark, CancellationToken cancellationToken)
    {
        FootageInfo info = footage.Info;
        RegistrationSettings settings = experiment.Registration;
        if (settings.EstimatesReadout)
        {
            remark("Finding the readout time from the footage.");
            ReadoutEstimate found = Find(experiment, footage, threads, cancellationToken);
            settings = settings with { ReadoutSeconds = found.Seconds, ReadoutSigmaSeconds = found.SigmaSeconds };
        }

        return RowTiming.Complete(settings, info.TimesSeconds, info.Height, experiment.Displacement.WindowPixels);
    }

    // A camera may stand still in the flow-off frames and shake later: what one stretch does not tell, the next may.
    private static ReadoutEstimate Find(ExperimentCase experiment, IFootage footage, int threads, CancellationToken cancellationToken)
    {
        FootageInfo info = footage.Info;
        double period = RowTiming.ShortestPeriod(info.TimesSeconds);
        if (!double.IsFinite(period))
            throw new InputDataException("registration.readout_ms = \"estimate\" needs the times of the frames, and this footage carries none: give footage.frame_rate_hz, or the readout in ms.");
        RegionMask region = RegionMask.Build(experiment.Region, info.Width, info.Height);
        RegistrationSettings registration = experiment.Registration with { Lens = experiment.Lens is { } lens ? new LensModel(lens) : null };
        InputDataException? reason = null;
        foreach (IReadOnlyList<int> frames in Stretches(experiment, info))
        {
            try
            {
                return ReadoutEstimator.Estimate(
                    footage.Read(frames, cancellationToken), region, registration, period, experiment.Displacement.WindowPixels, threads, cancellationToken);
            }
            catch (InputDataException exception)
            {
                reason = exception;
            }
        }

        throw reason!;
    }

    private static IEnumerable<IReadOnlyList<int>> Stretches(ExperimentCase experiment, FootageInfo info)
    {
        IReadOnlyList<int> measured = FrameSelection.Resolve(experiment.Footage, info);
        if (experiment.Reference is { Use: { } use, Images.Count: 0 })
            yield return First(FrameSelection.Parse(use, info.FrameCount, "reference.use"), 0);
        yield return First(measured, 0);
        if (measured.Count >= 2 * ReadoutEstimator.Frames)
            yield return First(measured, (measured.Count - ReadoutEstimator.Frames) / 2);
    }

    private static int[] First(IReadOnlyList<int> frames, int start) => [.. frames.Skip(start).Take(ReadoutEstimator.Frames)];
}
