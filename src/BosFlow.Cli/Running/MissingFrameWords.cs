using BosFlow.Pipeline;

namespace BosFlow.Cli.Running;

/// <summary>Says which frames a gathering lacks, and what to run.</summary>
internal static class MissingFrameWords
{
    private const int MostNamed = 8;

    /// <summary>One sentence for the user.</summary>
    /// <param name="missing">Numbers of the missing frames, ascending.</param>
    /// <param name="prepared">The run.</param>
    /// <param name="shardCount">Number of shards that the frames were split into; null where that is not known.</param>
    public static string Sentence(IReadOnlyList<int> missing, PreparedRun prepared, int? shardCount)
    {
        IReadOnlyList<int> all = prepared.FrameIndices;
        string what = FormattableString.Invariant($"{missing.Count} of {all.Count} frames are not measured yet, so nothing was gathered: {Listing(Ranges(missing))}.");
        if (shardCount is not { } count)
            return $"{what} Start {SameRun.Command(prepared)}, which measures what is missing and gathers.";
        var position = all.Select((frame, at) => (frame, at)).ToDictionary(pair => pair.frame, pair => pair.at);
        IEnumerable<int> shards = missing.Select(frame => Shard.NumberAt(position[frame], all.Count, count)).Distinct();
        return $"{what} Start {SameRun.Command(prepared)} with --shard {Listing(shards.Select(number => FormattableString.Invariant($"{number}/{count}")))} again, then --gather.";
    }

    private static IEnumerable<string> Ranges(IReadOnlyList<int> frames) => FrameNumbers.Ranges(frames)
        .Select(range => range.First == range.Last ? FormattableString.Invariant($"{range.First}") : FormattableString.Invariant($"{range.First} to {range.Last}"));

    private static string Listing(IEnumerable<string> parts)
    {
        string[] all = [.. parts];
        string named = string.Join(", ", all.Take(MostNamed));
        return all.Length > MostNamed ? FormattableString.Invariant($"{named} and {all.Length - MostNamed} more") : named;
    }
}
