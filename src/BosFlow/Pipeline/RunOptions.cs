namespace BosFlow.Pipeline;

/// <summary>How a run is carried out; nothing in it changes a result.</summary>
public sealed record RunOptions
{
    /// <summary>Number of frames measured side by side, at least 1; memory grows with it.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>Whether frames that the store already holds are measured again.</summary>
    public bool Force { get; init; }
}
