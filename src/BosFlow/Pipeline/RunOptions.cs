namespace BosFlow.Pipeline;

/// <summary>How a run is carried out; nothing in it changes a result.</summary>
public sealed record RunOptions
{
    /// <summary>Number of frames measured side by side, at least 1; memory grows with it.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>Whether frames that the store already holds are measured again.</summary>
    public bool Force { get; init; }

    /// <summary>Asked before another frame is read: while it says yes, none is read before a frame under way is finished. Null = never.</summary>
    public Func<bool>? IsMemoryShort { get; init; }
}
