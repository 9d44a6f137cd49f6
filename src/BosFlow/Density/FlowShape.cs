namespace BosFlow.Density;

/// <summary>What is known of the flow along the line of sight.</summary>
public enum FlowShape
{
    /// <summary>Nothing: only integrals along the ray are given.</summary>
    PathIntegrated,

    /// <summary>The same over a known length along the line of sight.</summary>
    Planar,

    /// <summary>Round about an axis that lies across the line of sight.</summary>
    Axisymmetric,
}
