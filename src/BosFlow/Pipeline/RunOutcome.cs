namespace BosFlow.Pipeline;

/// <summary>What a run came to, for the last words of a command.</summary>
public sealed record RunOutcome
{
    /// <summary>Frames asked for.</summary>
    public required int FramesTotal { get; init; }

    /// <summary>Frames that were already in the store and were not measured again.</summary>
    public required int FramesResumed { get; init; }

    /// <summary>Frames that could not be measured, in order.</summary>
    public required IReadOnlyList<FailedFrame> FailedFrames { get; init; }

    /// <summary>Frames that were left out, in order: repeated, blurred, or shaken too far.</summary>
    public IReadOnlyList<FailedFrame> RejectedFrames { get; init; } = [];

    /// <summary>Median over the frames of the noise floor in x, px; NaN where no frame has one.</summary>
    public required double NoiseFloorU { get; init; }

    /// <summary>Median over the frames of the noise floor in y, px; NaN where no frame has one.</summary>
    public required double NoiseFloorV { get; init; }

    /// <summary>Median over the measured frames of the share of valid vectors, 0 to 1.</summary>
    public required double ValidFraction { get; init; }

    /// <summary>How the light varied; null where no frame was measured, and of a shard.</summary>
    public LightVariation? Light { get; init; }

    /// <summary>Everything the user should know of the run, one sentence each.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Frames that were measured.</summary>
    public int FramesMeasured => FramesTotal - FailedFrames.Count - RejectedFrames.Count;
}
