using System.Collections.Concurrent;
using BosFlow.Displacement;
using BosFlow.Pipeline;

namespace BosFlow.Validation;

/// <summary>Keeps the results of a run in memory: for studies that need the whole pipeline but no files.</summary>
public sealed class MemoryRunStore : IRunStore
{
    private readonly ConcurrentDictionary<int, FrameResult> frames = new();

    /// <summary>The summary; null before it was written.</summary>
    public RunSummary? Summary { get; private set; }

    /// <inheritdoc/>
    public IReadOnlySet<int> FinishedFrames(NodeGrid grid) => frames.Where(frame => frame.Value.Field.Grid == grid).Select(frame => frame.Key).ToHashSet();

    /// <inheritdoc/>
    public void WriteFrame(FrameResult result, double processingSeconds)
    {
        ArgumentNullException.ThrowIfNull(result);
        frames[result.Index] = result;
    }

    /// <inheritdoc/>
    public bool KeepsFields => true;

    /// <inheritdoc/>
    public FrameResult ReadFrame(int index) => frames[index];

    /// <inheritdoc/>
    public void WriteSummary(RunSummary summary, CancellationToken cancellationToken) => Summary = summary;
}
