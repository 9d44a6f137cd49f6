namespace BosFlow.Density;

/// <summary>Which inputs the uncertainty of density and temperature comes from, at one place: where the density differs most from the surroundings.</summary>
public sealed record UncertaintyBudget
{
    /// <summary>x of the place, px of the reference.</summary>
    public required double X { get; init; }

    /// <summary>y of the place, px.</summary>
    public required double Y { get; init; }

    /// <summary>Density there, kg/m3.</summary>
    public required double DensityKgM3 { get; init; }

    /// <summary>Its standard uncertainty, the root of the sum of squares of the lines, kg/m3.</summary>
    public required double SigmaDensityKgM3 { get; init; }

    /// <summary>Temperature there, K; NaN where none is given.</summary>
    public required double TemperatureKelvin { get; init; }

    /// <summary>Its standard uncertainty, K.</summary>
    public required double SigmaTemperatureKelvin { get; init; }

    /// <summary>The sources, the largest contribution to the density first; those not stated last.</summary>
    public required IReadOnlyList<BudgetLine> Lines { get; init; }
}
