namespace BosFlow.Planning;

/// <summary>What a rig may be when its best distances are looked for. Lengths in m; null = no limit.</summary>
public sealed record PlanLimits
{
    /// <summary>Longest distance from the lens to the board.</summary>
    public double? LongestBoardDistanceMetres { get; init; }

    /// <summary>Shortest distance from the lens to the flow.</summary>
    public double? ShortestLensToFlowMetres { get; init; }

    /// <summary>Shortest distance from the flow to the board, such as what heat allows.</summary>
    public double? ShortestFlowToBackgroundMetres { get; init; }

    /// <summary>Longest distance from the flow to the board, such as the space between wing and tail.</summary>
    public double? LongestFlowToBackgroundMetres { get; init; }

    /// <summary>Largest width of the board.</summary>
    public double? LargestBoardWidthMetres { get; init; }

    /// <summary>Largest height of the board.</summary>
    public double? LargestBoardHeightMetres { get; init; }

    /// <summary>Least width of the view in the flow plane.</summary>
    public double? LeastViewWidthMetres { get; init; }

    /// <summary>Focal lengths to choose from, m; empty = the one of the rig.</summary>
    public IReadOnlyList<double> FocalLengthsMetres { get; init; } = [];

    /// <summary>f-numbers to choose from; empty = the one of the rig.</summary>
    public IReadOnlyList<double> FNumbers { get; init; } = [];
}
