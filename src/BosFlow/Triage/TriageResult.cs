using BosFlow.Footage;

namespace BosFlow.Triage;

/// <summary>The judgement on a take.</summary>
public sealed record TriageResult
{
    /// <summary>The footage.</summary>
    public required FootageInfo Info { get; init; }

    /// <summary>Settings, scale and data rate that it was judged with.</summary>
    public required TriageRequest Request { get; init; }

    /// <summary>What the time stamps tell.</summary>
    public required TimeScan Times { get; init; }

    /// <summary>The sampled frames, ascending.</summary>
    public required IReadOnlyList<FrameReading> Frames { get; init; }

    /// <summary>Pairs of neighbours among them.</summary>
    public required IReadOnlyList<PairReading> Pairs { get; init; }

    /// <summary>The figures.</summary>
    public required TriageMeasures Measures { get; init; }

    /// <summary>What to change, largest effect first.</summary>
    public required IReadOnlyList<TriageFinding> Findings { get; init; }

    /// <summary>Frames from which and up to which the samples are usable, ascending; between samples it is taken for granted.</summary>
    public required IReadOnlyList<(int First, int Last)> UsableRanges { get; init; }

    /// <summary>Whether the take is worth measuring, in parts at least.</summary>
    public bool IsUsable => UsableRanges.Count > 0 && !Findings.Any(finding => finding.IsFatal);

    /// <summary>Path-integrated density gradient of the noise floor, kg m-3; null where the rig is not known.</summary>
    public double? NoiseGradientPath => Request.Scale is { } scale ? Math.Abs(scale.DensityGradientPathPerPixel) * Measures.NoiseFloor : null;
}
