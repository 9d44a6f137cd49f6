using BosFlow.Displacement;
using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>Density, refractive index and temperature of a run's mean field with their uncertainty.</summary>
/// <remarks>
/// Given at the nodes of the displacement's grid, taken as places in the flow plane: node (x, y) stands for the point of the flow plane that the
/// undisturbed line of sight of pixel (x, y) meets. For an axisymmetric flow the fields are the cross-section through the axis, parallel to the picture.
/// </remarks>
public sealed record DensityResult
{
    /// <summary>What was assumed of the flow along the line of sight.</summary>
    public required FlowShape Shape { get; init; }

    /// <summary>Grid of the fields, px of the reference.</summary>
    public required NodeGrid Grid { get; init; }

    /// <summary>
    /// For planar and axisymmetric flows: density (kg m-3), refractive_index (1) and, where it has a meaning, temperature (K).
    /// For path-integrated ones: density_path (kg m-2), the integral of the density's difference to the surroundings along the line of sight.
    /// Sigma holds all contributions whose uncertainty is known.
    /// </summary>
    public required IReadOnlyList<ScalarField> Fields { get; init; }

    /// <summary>The part of the sigma of the first of the fields that comes from the measured displacement alone; Grid.Count entries, same unit.</summary>
    public required float[] SigmaRandom { get; init; }

    /// <summary>What holds at each node.</summary>
    public required DensityFlags[] Flags { get; init; }

    /// <summary>Residual of the integration at each node in units of its sigma (about 1 for sound data; the curl of the measured gradient shows here); empty for axisymmetric flows.</summary>
    public float[] NormalisedResidual { get; init; } = [];

    /// <summary>Radial profiles along the axis; empty but for axisymmetric flows.</summary>
    public IReadOnlyList<RadialProfile> Profiles { get; init; } = [];

    /// <summary>The axis; null but for axisymmetric flows.</summary>
    public AxisEstimate? Axis { get; init; }

    /// <summary>Where the uncertainty comes from; null where no density is given.</summary>
    public UncertaintyBudget? Budget { get; init; }

    /// <summary>Checks of the data against the assumptions.</summary>
    public IReadOnlyList<DataCheck> Checks { get; init; } = [];

    /// <summary>How the density was obtained, in plain sentences for the report: operator, boundary values, smoothing.</summary>
    public IReadOnlyList<string> Methods { get; init; } = [];

    /// <summary>Everything the user should know, one sentence each.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];
}
