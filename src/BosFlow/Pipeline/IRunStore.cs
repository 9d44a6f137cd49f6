using BosFlow.Displacement;

namespace BosFlow.Pipeline;

/// <summary>Where the results of a run are kept; finished frames stay, whatever happens to the process.</summary>
public interface IRunStore
{
    /// <summary>Numbers of the frames whose results are complete, readable and given on the grid of this run.</summary>
    /// <param name="grid">The grid.</param>
    IReadOnlySet<int> FinishedFrames(NodeGrid grid);

    /// <summary>Keeps one frame's result; complete or not there at all. Safe to call from several threads for different frames.</summary>
    /// <param name="result">The frame's result.</param>
    /// <param name="processingSeconds">Time it took, s; kept apart from the result.</param>
    void WriteFrame(FrameResult result, double processingSeconds);

    /// <summary>Whether the fields of a result stay in use after <see cref="WriteFrame"/>; where not, later results may stand in their memory.</summary>
    bool KeepsFields { get; }

    /// <summary>Reads back what <see cref="WriteFrame"/> kept, bit for bit in its arrays.</summary>
    /// <param name="index">Number of the frame in the footage.</param>
    FrameResult ReadFrame(int index);

    /// <summary>Keeps the summary of the whole run: statistics, derived fields, table of frames, maps, report.</summary>
    /// <param name="summary">The summary.</param>
    /// <param name="cancellationToken">Stops between two files; the summary then counts as not written.</param>
    void WriteSummary(RunSummary summary, CancellationToken cancellationToken);
}
