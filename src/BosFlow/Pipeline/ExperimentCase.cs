using BosFlow.Camera;
using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Registration;

namespace BosFlow.Pipeline;

/// <summary>One experiment: what was filmed, how, with which gas, and what is wanted. SI units inside.</summary>
public sealed record ExperimentCase
{
    /// <summary>Footage and choice of frames.</summary>
    public required FootageSettings Footage { get; init; }

    /// <summary>Reference picture.</summary>
    public ReferenceSettings Reference { get; init; } = new();

    /// <summary>Region of interest and masks.</summary>
    public RegionSettings Region { get; init; } = new();

    /// <summary>Motion of camera and board.</summary>
    public RegistrationSettings Registration { get; init; } = new();

    /// <summary>Correlation engine.</summary>
    public DisplacementSettings Displacement { get; init; } = new();

    /// <summary>Distances and camera; null = displacements only, no gradient.</summary>
    public RigGeometry? Rig { get; init; }

    /// <summary>Path of the lens file, relative to the case's folder; null = the lens is taken for ideal.</summary>
    public string? LensFile { get; init; }

    /// <summary>The lens that the file describes; null = the lens is taken for ideal.</summary>
    public LensParameters? Lens { get; init; }

    /// <summary>Path of the description of the printed background, relative to the case's folder; null = none is given.</summary>
    public string? BoardDescription { get; init; }

    /// <summary>Gas.</summary>
    public GasSettings Gas { get; init; } = new();

    /// <summary>Shape of the flow, its surroundings and its pressure.</summary>
    public FlowSettings Flow { get; init; } = new();

    /// <summary>Angle of the knife edge of the knife-edge view, degrees counter-clockwise as seen on the picture; 0 shows the gradient along +x, 90 along the picture's upward direction.</summary>
    public double KnifeEdgeDegrees { get; init; }
}
