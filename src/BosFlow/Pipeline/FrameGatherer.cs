using BosFlow.Displacement;
using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>
/// Reads all frames back from the store, in order, one at a time: a run that was interrupted, or spread over machines,
/// sums the same numbers in the same order as one that was not.
/// </summary>
internal static class FrameGatherer
{
    /// <summary>Gathers the frames.</summary>
    /// <param name="request">The run.</param>
    /// <param name="grid">Grid that every field must have.</param>
    /// <param name="common">Part of the error that all frames share.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    /// <exception cref="InputDataException">A frame in the store has another grid.</exception>
    /// <exception cref="RunFailedException">No frame was measured.</exception>
    public static GatheredRun Gather(RunRequest request, NodeGrid grid, CommonError common, CancellationToken cancellationToken)
    {
        var accumulator = new FieldStatisticsAccumulator(grid, common);
        var records = new List<FrameRecord>(request.FrameIndices.Count);
        foreach (int index in request.FrameIndices)
        {
            cancellationToken.ThrowIfCancellationRequested();
            FrameResult result = request.Store.ReadFrame(index);
            if (result.Field.Grid != grid)
            {
                throw new InputDataException(FormattableString.Invariant(
                    $"Frame {index} in the results was measured on another grid of vectors than this case asks for: use another output folder, or measure all frames again."));
            }

            // A frame that failed or was left out says nothing of a place in the picture: its flags must not count as the place's own.
            if (result.IsMeasured)
                accumulator.Add(result.Field);
            records.Add(FrameRecord.Of(result));
        }

        if (accumulator.FrameCount == 0)
            throw new RunFailedException([.. Failed(records).Concat(Rejected(records)).OrderBy(frame => frame.Index)]);
        return new GatheredRun(records, accumulator.ToStatistics());
    }

    /// <summary>The frames that could not be measured.</summary>
    public static IReadOnlyList<FailedFrame> Failed(IEnumerable<FrameRecord> records) =>
        [.. records.Where(record => record.Failure is not null).Select(record => new FailedFrame(record.Index, record.Source, record.Failure!))];

    /// <summary>The frames that were left out.</summary>
    public static IReadOnlyList<FailedFrame> Rejected(IEnumerable<FrameRecord> records) =>
        [.. records.Where(record => record.Rejection is not null).Select(record => new FailedFrame(record.Index, record.Source, record.Rejection!))];
}
