namespace BosFlow.Cli.Queue;

/// <summary>What became of a case of a queue.</summary>
internal enum CaseState
{
    /// <summary>Every frame was measured.</summary>
    Done,

    /// <summary>Done, but at least one frame could not be measured.</summary>
    DoneWithLosses,

    /// <summary>Found impossible before any work; nothing was written.</summary>
    Refused,

    /// <summary>Begun and not finished.</summary>
    Failed,

    /// <summary>The queue was interrupted before or within it.</summary>
    Interrupted,
}
