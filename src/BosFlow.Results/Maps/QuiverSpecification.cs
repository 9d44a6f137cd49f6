using BosFlow.Displacement;
using BosFlow.Footage;

namespace BosFlow.Results.Maps;

/// <summary>Displacement as arrows over the reference picture.</summary>
public sealed record QuiverSpecification
{
    /// <summary>The quantity in words.</summary>
    public required string Title { get; init; }

    /// <summary>The picture below the arrows.</summary>
    public required GrayImage Picture { get; init; }

    /// <summary>Window centres, px.</summary>
    public required NodeGrid Grid { get; init; }

    /// <summary>Displacement to the right, px; NaN draws no arrow.</summary>
    public required float[] U { get; init; }

    /// <summary>Displacement downwards, px.</summary>
    public required float[] V { get; init; }

    /// <summary>What happened to each vector; doubtful ones are drawn in another colour.</summary>
    public required VectorFlags[] Flags { get; init; }

    /// <summary>Scale in the plane of the flow, mm per px; null where it is not known.</summary>
    public double? FlowMillimetresPerPixel { get; init; }
}
