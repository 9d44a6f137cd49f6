using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>Begins the log when a run first tells of progress: from then on it is not refused any more.</summary>
/// <param name="log">The log.</param>
/// <param name="listener">Who is told of the progress.</param>
internal sealed class LoggedProgress(RunLog log, IProgress<RunProgress> listener) : IProgress<RunProgress>
{
    /// <inheritdoc/>
    public void Report(RunProgress value)
    {
        log.Begin();
        listener.Report(value);
    }
}
