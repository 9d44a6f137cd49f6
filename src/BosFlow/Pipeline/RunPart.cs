namespace BosFlow.Pipeline;

/// <summary>What a process does of a run: all of it, the frames of one shard, or the summary of what shards have measured.</summary>
public sealed record RunPart
{
    private RunPart(Shard? shard, bool measures, bool gathers) => (Shard, Measures, Gathers) = (shard, measures, gathers);

    /// <summary>Measures every frame and writes the summary.</summary>
    public static RunPart Whole { get; } = new(null, measures: true, gathers: true);

    /// <summary>Measures nothing: all frames must be there; writes the summary.</summary>
    public static RunPart Gathering { get; } = new(null, measures: false, gathers: true);

    /// <summary>The shard; null = every frame.</summary>
    public Shard? Shard { get; }

    /// <summary>Whether frames that are missing are measured.</summary>
    public bool Measures { get; }

    /// <summary>Whether the summary is written.</summary>
    public bool Gathers { get; }

    /// <summary>Measures the frames of one shard and writes no summary.</summary>
    /// <param name="shard">The shard.</param>
    public static RunPart Of(Shard shard) => new(shard, measures: true, gathers: false);

    /// <summary>The frames that this part is about.</summary>
    /// <param name="frames">All frames of the run, ascending.</param>
    public IReadOnlyList<int> Frames(IReadOnlyList<int> frames) => Shard is null ? frames : Shard.Of(frames);

    /// <inheritdoc/>
    public override string ToString() => Shard?.ToString() ?? (Measures ? "the whole run" : "the gathering of its shards");
}
