using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Planning;

/// <summary>A rig that is to be judged before it is built. SI units.</summary>
public sealed record PlanRequest
{
    /// <summary>Distances and lens; focal length, pixel pitch and f-number are needed.</summary>
    public required RigGeometry Rig { get; init; }

    /// <summary>Gas and its surroundings.</summary>
    public GasSettings Gas { get; init; } = new();

    /// <summary>Picture, exposure, readout, noise.</summary>
    public required CameraFacts Camera { get; init; }

    /// <summary>Window and passes of the engine.</summary>
    public DisplacementSettings Displacement { get; init; } = new();

    /// <summary>The printed background.</summary>
    public PlannedBoard Board { get; init; } = new();

    /// <summary>What is to be seen; null = the sheet states what could be seen.</summary>
    public ExpectedFlow? Flow { get; init; }

    /// <summary>Number of flow-off frames whose mean is the reference, at least 1.</summary>
    public int ReferenceFrames { get; init; } = 30;

    /// <summary>Number of frames that are averaged for the mean field, at least 1.</summary>
    public int FlowFrames { get; init; } = 100;

    /// <summary>Finest structure that is to be resolved in the flow plane, m; null = the size of the expected flow.</summary>
    public double? FinestStructureMetres { get; init; }
}
