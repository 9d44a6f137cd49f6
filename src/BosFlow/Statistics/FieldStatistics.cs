using BosFlow.Displacement;

namespace BosFlow.Statistics;

/// <summary>Time statistics of the displacement at every node. Arrays are row-major with Grid.Count entries.</summary>
public sealed class FieldStatistics
{
    /// <summary>Grid of window centres, px of the reference.</summary>
    public required NodeGrid Grid { get; init; }

    /// <summary>Mean of u over the frames in which the node was measured, px; NaN where it never was.</summary>
    public required float[] MeanU { get; init; }

    /// <summary>Mean of v, px.</summary>
    public required float[] MeanV { get; init; }

    /// <summary>RMS of u about its mean (sample standard deviation), px; NaN with fewer than two values.</summary>
    public required float[] RmsU { get; init; }

    /// <summary>RMS of v about its mean, px.</summary>
    public required float[] RmsV { get; init; }

    /// <summary>Standard uncertainty of MeanU, px.</summary>
    public required float[] SigmaMeanU { get; init; }

    /// <summary>Standard uncertainty of MeanV, px.</summary>
    public required float[] SigmaMeanV { get; init; }

    /// <summary>Mean correlation value.</summary>
    public required float[] MeanCorrelation { get; init; }

    /// <summary>Number of frames in which the node was measured (flag 0).</summary>
    public required int[] Count { get; init; }

    /// <summary>Bits set in more than half of the frames: what the node's place as a whole suffers from (masked, low texture).</summary>
    public required VectorFlags[] PrevailingFlags { get; init; }
}
