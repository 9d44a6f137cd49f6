using BosFlow.Density;

namespace BosFlow.Results.Runs;

/// <summary>What run.json says of the density: everything of it that is words or single numbers. Its fields and profiles are in summary.nc.</summary>
public sealed record DensityDocument
{
    /// <summary>What was assumed of the flow along the line of sight.</summary>
    public required FlowShape Shape { get; init; }

    /// <summary>The axis; null but for axisymmetric flows.</summary>
    public AxisEstimate? Axis { get; init; }

    /// <summary>Where the uncertainty comes from; null where no density is given.</summary>
    public UncertaintyBudget? Budget { get; init; }

    /// <summary>Checks of the data against the assumptions.</summary>
    public IReadOnlyList<DataCheck> Checks { get; init; } = [];

    /// <summary>How the density was obtained, one sentence each.</summary>
    public IReadOnlyList<string> Methods { get; init; } = [];

    /// <summary>Everything the user should know, one sentence each.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    internal static DensityDocument? Of(DensityResult? density) => density is null ? null : new DensityDocument
    {
        Shape = density.Shape,
        Axis = density.Axis,
        Budget = density.Budget,
        Checks = density.Checks,
        Methods = density.Methods,
        Warnings = density.Warnings,
    };
}
