namespace BosFlow.Planning;

/// <summary>What an expected flow does to light, whatever the rig.</summary>
internal sealed record FlowOptics
{
    /// <summary>What it is, one line.</summary>
    public required string Description { get; init; }

    /// <summary>Where its formulas come from.</summary>
    public required string Source { get; init; }

    /// <summary>Largest deflection, rad, greater than 0.</summary>
    public required double PeakRadians { get; init; }

    /// <summary>Size, m: the unit of <see cref="Profile"/>.</summary>
    public required double SizeMetres { get; init; }

    /// <summary>Distance from its middle to its edge, m, for the margin beside it.</summary>
    public required double ExtentMetres { get; init; }

    /// <summary>Density where it differs most, kg/m3; null where it plays no part.</summary>
    public double? Density { get; init; }

    /// <summary>Temperature there, K; null where it plays no part.</summary>
    public double? Temperature { get; init; }

    /// <summary>Speed, m/s; null = not known.</summary>
    public double? SpeedMetresPerSecond { get; init; }

    /// <summary>Length along the line of sight from the middle of the flow to its edge, m, that must fit before lens and board.</summary>
    public required double HalfDepthMetres { get; init; }

    /// <summary>How the deflection runs across it.</summary>
    public required DeflectionProfile Profile { get; init; }
}
