using System.Collections.Concurrent;
using BosFlow.Displacement;
using BosFlow.Pipeline;

namespace BosFlow.Tests.Pipeline;

/// <summary>A run store in memory.</summary>
internal sealed class MemoryStore : IRunStore
{
    private int writes;

    public ConcurrentDictionary<int, FrameResult> Frames { get; } = new();

    public RunSummary? Summary { get; private set; }

    public int Writes => Volatile.Read(ref writes);

    /// <summary>Called before a frame is kept.</summary>
    public Action<FrameResult>? Writing { get; init; }

    public IReadOnlySet<int> FinishedFrames(NodeGrid grid) => Frames.Where(frame => frame.Value.Field.Grid == grid).Select(frame => frame.Key).ToHashSet();

    public void WriteFrame(FrameResult result, double processingSeconds)
    {
        Writing?.Invoke(result);
        Assert.True(processingSeconds >= 0);
        Frames[result.Index] = result;
        Interlocked.Increment(ref writes);
    }

    public bool KeepsFields => true;

    public FrameResult ReadFrame(int index) => Frames[index];

    public void WriteSummary(RunSummary summary, CancellationToken cancellationToken) => Summary = summary;
}
