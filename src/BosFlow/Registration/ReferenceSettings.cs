namespace BosFlow.Registration;

/// <summary>Where the reference (flow-off) picture comes from.</summary>
public sealed record ReferenceSettings
{
    /// <summary>One or several pictures (glob or paths, relative to the case file); empty where frames of the footage serve.</summary>
    public IReadOnlyList<string> Images { get; init; } = [];

    /// <summary>start:stop:step of flow-off frames of the footage; null = the whole clip where no picture is given either.</summary>
    public string? Use { get; init; }

    /// <summary>Further stretches of flow-off frames, each start:stop:step, after or between the frames with flow; they tell how the background drifted.</summary>
    public IReadOnlyList<string> UseLater { get; init; } = [];

    /// <summary>What is done about such a drift.</summary>
    public DriftHandling Drift { get; init; } = DriftHandling.Remove;

    /// <summary>How several aligned frames become one picture.</summary>
    public ReferenceCombination Combine { get; init; } = ReferenceCombination.Mean;
}
