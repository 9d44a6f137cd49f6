using BosFlow.Statistics;

namespace BosFlow.Pipeline;

/// <summary>What the frames of a run amount to.</summary>
/// <param name="Records">One a frame, in order.</param>
/// <param name="Statistics">Over the measured frames.</param>
internal sealed record GatheredRun(IReadOnlyList<FrameRecord> Records, FieldStatistics Statistics);
