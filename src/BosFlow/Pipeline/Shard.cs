namespace BosFlow.Pipeline;

/// <summary>One of several parts that a run's frames are split into, for several processes on one or many machines.</summary>
/// <param name="Number">Which part, 1 to <paramref name="Count"/>.</param>
/// <param name="Count">How many parts there are, at least 1.</param>
public sealed record Shard(int Number, int Count)
{
    /// <summary>The frames of this part: a block without gaps. Each frame is in exactly one part; the sizes differ by at most one.</summary>
    /// <param name="frames">All frames of the run, ascending.</param>
    /// <returns>Empty where there are fewer frames than parts and this one has none.</returns>
    public IReadOnlyList<int> Of(IReadOnlyList<int> frames)
    {
        ArgumentNullException.ThrowIfNull(frames);
        int first = Edge(frames.Count, Number - 1);
        return [.. frames.Skip(first).Take(Edge(frames.Count, Number) - first)];
    }

    /// <summary>The part that a frame is in.</summary>
    /// <param name="position">Position of the frame among those of the run, from 0.</param>
    /// <param name="frameCount">Number of frames of the run.</param>
    /// <param name="shardCount">Number of parts.</param>
    /// <returns>Its number, from 1.</returns>
    /// <remarks>Part k ends before floor(frames k / parts), so k is the least number with frames k at least (position + 1) parts.</remarks>
    public static int NumberAt(int position, int frameCount, int shardCount) => (int)((((position + 1L) * shardCount) + frameCount - 1) / frameCount);

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"shard {Number} of {Count}");

    private int Edge(int frameCount, int shards) => (int)((long)frameCount * shards / Count);
}
