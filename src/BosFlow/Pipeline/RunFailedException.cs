namespace BosFlow.Pipeline;

/// <summary>A run in which not a single frame could be measured.</summary>
public sealed class RunFailedException : Exception
{
    private const int ReasonsNamed = 3;

    /// <summary>Creates the exception from the frames and their reasons.</summary>
    /// <param name="failedFrames">All frames of the run, at least one.</param>
    public RunFailedException(IReadOnlyList<FailedFrame> failedFrames)
        : base(Sentence(failedFrames))
    {
        FailedFrames = failedFrames;
    }

    /// <summary>The frames with their reasons, in order.</summary>
    public IReadOnlyList<FailedFrame> FailedFrames { get; }

    private static string Sentence(IReadOnlyList<FailedFrame> failed)
    {
        ArgumentNullException.ThrowIfNull(failed);
        // The same reason in a thousand frames is one reason.
        IEnumerable<string> reasons = failed
            .GroupBy(frame => frame.Reason, StringComparer.Ordinal)
            .Take(ReasonsNamed)
            .Select(group => FormattableString.Invariant($"frame {group.First().Index} ({group.First().Source}): {group.Key}"));
        return FormattableString.Invariant($"None of the {failed.Count} frames could be measured: {string.Join(" ", reasons)}");
    }
}
