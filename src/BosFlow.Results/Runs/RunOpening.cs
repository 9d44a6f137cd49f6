using BosFlow.Pipeline;
using BosFlow.Results.Locking;

namespace BosFlow.Results.Runs;

/// <summary>How a run's folder is opened.</summary>
public sealed record RunOpening
{
    /// <summary>What the process will do of the run.</summary>
    public RunPart Part { get; init; } = RunPart.Whole;

    /// <summary>Whether what the folder holds of an earlier run is deleted first. Never deletes anything this program did not write.</summary>
    public bool Restart { get; init; }

    /// <summary>Number of frames that may be written at the same time, at least 1: so much room is kept on the disk.</summary>
    public int FramesAtATime { get; init; } = Environment.ProcessorCount;

    /// <summary>Told, one sentence each, of locks that are looked at for long or were left over.</summary>
    public Action<string> Remark { get; init; } = _ => { };

    /// <summary>Times of locks.</summary>
    public LockRhythm Rhythm { get; init; } = LockRhythm.Standard;
}
