using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>The last words of a shard, for people and for machines.</summary>
internal static class ShardWords
{
    private const int DocumentVersion = 1;
    private const int GroupsListed = 10;

    /// <summary>Tells what a shard came to.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="run">The shard's part of a run.</param>
    public static void Tell(Talk talk, FinishedRun run)
    {
        Shard shard = run.Prepared.Settings.Part.Shard ?? throw new ArgumentException("The run is no shard.", nameof(run));
        RunOutcome outcome = run.Outcome;
        IReadOnlyList<int> frames = shard.Of(run.Prepared.FrameIndices);
        talk.Result(frames.Count == 0
            ? FormattableString.Invariant($"Shard:       {shard.Number} of {shard.Count} has nothing to do: there are {run.Prepared.FrameIndices.Count} frames")
            : FormattableString.Invariant($"Shard:       {shard.Number} of {shard.Count}, frames {frames[0]} to {frames[^1]}: {outcome.FramesMeasured} of {outcome.FramesTotal} measured; {outcome.FramesResumed} were there already"));
        foreach (FailureGroup group in FailureGroup.Of(outcome.FailedFrames).Take(GroupsListed))
            talk.Result($"Failed:      {group}");
        foreach (FailureGroup group in FailureGroup.Of(outcome.RejectedFrames).Take(GroupsListed))
            talk.Result($"Left out:    {group}");
        if (outcome.FailedFrames.Count + outcome.RejectedFrames.Count > 0)
            talk.Result($"             {run.LogPath} lists each of them");
        talk.Result($"Results:     {run.Folder}");
        talk.Result($"To do:       when all {shard.Count} shards are done, {SameRun.Command(run.Prepared)} --gather writes summary, maps and report");
        talk.Document("shard", DocumentVersion, new JsonObject
        {
            ["exit_code"] = run.Code,
            ["case_file"] = run.Prepared.Case.File,
            ["output_folder"] = run.Folder,
            ["log"] = run.LogPath,
            ["shard"] = shard.Number,
            ["shards"] = shard.Count,
            ["frames_total"] = outcome.FramesTotal,
            ["frames_measured"] = outcome.FramesMeasured,
            ["frames_resumed"] = outcome.FramesResumed,
            ["frames_failed"] = RunWords.FramesWithReasons(outcome.FailedFrames),
            ["frames_rejected"] = RunWords.FramesWithReasons(outcome.RejectedFrames),
        });
    }
}
