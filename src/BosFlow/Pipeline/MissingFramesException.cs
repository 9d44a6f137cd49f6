namespace BosFlow.Pipeline;

/// <summary>Frames that were to be gathered have not been measured; nothing was written.</summary>
public sealed class MissingFramesException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="frames">Numbers of the missing frames in the footage, ascending, at least one.</param>
    public MissingFramesException(IReadOnlyList<int> frames)
        : base(FormattableString.Invariant($"{frames?.Count} frames are not measured yet."))
    {
        ArgumentNullException.ThrowIfNull(frames);
        Frames = frames;
    }

    /// <summary>Numbers of the missing frames, ascending.</summary>
    public IReadOnlyList<int> Frames { get; }
}
