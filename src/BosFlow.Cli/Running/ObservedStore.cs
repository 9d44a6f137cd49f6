using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Running;

/// <summary>The folder of a run, with somebody who is told of each frame that is kept.</summary>
/// <param name="folder">The folder of the run.</param>
/// <param name="onFrame">Told of each frame that is kept, with the time it took in s; called from several threads; the frame's field is not read afterwards.</param>
/// <param name="onWarning">Told of frame files that cannot be used.</param>
internal sealed class ObservedStore(RunFolder folder, Action<FrameResult, double> onFrame, Action<string> onWarning) : IRunStore
{
    /// <inheritdoc/>
    public IReadOnlySet<int> FinishedFrames(NodeGrid grid)
    {
        IReadOnlySet<int> finished = folder.FinishedFrames(grid);
        foreach (string damaged in folder.DamagedFrames)
            onWarning(damaged);
        return finished;
    }

    /// <inheritdoc/>
    public void WriteFrame(FrameResult result, double processingSeconds)
    {
        folder.WriteFrame(result, processingSeconds);
        onFrame(result, processingSeconds);
    }

    /// <inheritdoc/>
    public bool KeepsFields => folder.KeepsFields;

    /// <inheritdoc/>
    public FrameResult ReadFrame(int index) => folder.ReadFrame(index);

    /// <summary>The density of the summary that was written; null before, and where the run gives none.</summary>
    public DensityResult? Density { get; private set; }

    /// <inheritdoc/>
    public void WriteSummary(RunSummary summary, CancellationToken cancellationToken)
    {
        folder.WriteSummary(summary, cancellationToken);
        Density = summary.Density;
    }
}
