using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Statistics;

namespace BosFlow.Density;

/// <summary>What the conversion to density works on.</summary>
public sealed record DensityRequest
{
    /// <summary>Mean displacement with its standard uncertainty.</summary>
    public required FieldStatistics Mean { get; init; }

    /// <summary>Distances and camera.</summary>
    public required RigGeometry Rig { get; init; }

    /// <summary>Gas in the flow and around.</summary>
    public required GasSettings Gas { get; init; }

    /// <summary>Shape, surroundings, pressure of the flow.</summary>
    public required FlowSettings Flow { get; init; }

    /// <summary>Width of the picture, px: its middle is taken as the optical axis.</summary>
    public required int Width { get; init; }

    /// <summary>Height of the picture, px.</summary>
    public required int Height { get; init; }

    /// <summary>Side of the interrogation window, px.</summary>
    public required int WindowPixels { get; init; }

    /// <summary>Weight within the window.</summary>
    public required WindowWeighting Weighting { get; init; }

    /// <summary>Threads; the result does not depend on them.</summary>
    public int Threads { get; init; } = 1;
}
