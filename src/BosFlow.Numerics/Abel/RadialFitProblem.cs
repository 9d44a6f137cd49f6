namespace BosFlow.Numerics.Abel;

/// <summary>Slopes of a projection at scattered positions on both sides of the axis, from which a radial profile is wanted.</summary>
public sealed record RadialFitProblem
{
    /// <summary>Signed distances y from the axis, any order; positions at or beyond <see cref="OuterRadius"/> are not used.</summary>
    public required double[] Position { get; init; }

    /// <summary>Slope G(y) = dF/dy at each position; NaN where it was not measured.</summary>
    public required double[] Slope { get; init; }

    /// <summary>Standard uncertainty of each slope, above 0 and finite where that is measured.</summary>
    public required double[] Sigma { get; init; }

    /// <summary>
    /// Correlation of the slopes' errors, row-major, one row and column a slope; null: independent errors. Errors that neighbours share must be stated here,
    /// or the choice of the strength takes them for detail.
    /// </summary>
    public double[]? Correlation { get; init; }

    /// <summary>Radius R at and beyond which the profile is 0; above 0.</summary>
    public required double OuterRadius { get; init; }

    /// <summary>How the strength of smoothing is chosen.</summary>
    public StrengthChoice Choice { get; init; } = StrengthChoice.MaximumLikelihood;

    /// <summary>A strength given instead of chosen, above 0; null to choose. Factor of INT f''(r)^2 dr beside the sum of squared normalised residuals.</summary>
    public double? Strength { get; init; }

    /// <summary>Cells of the spline from the axis to R, 4 to 200; null: one for each two measured positions, 12 to 80. More than the data can resolve does no harm: smoothing decides.</summary>
    public int? Cells { get; init; }

    /// <summary>Checks sizes and ranges.</summary>
    /// <exception cref="ArgumentException">Arrays of different length, a correlation of another size, a sigma that is not above 0, a radius or strength not above 0, fewer than 3 usable slopes.</exception>
    public void Validate()
    {
        if (Slope.Length != Position.Length || Sigma.Length != Position.Length)
            throw new ArgumentException($"There are {Position.Length} positions, {Slope.Length} slopes and {Sigma.Length} sigmas; give one of each.");
        if (Correlation is not null && Correlation.Length != Position.Length * Position.Length)
            throw new ArgumentException($"The correlation of {Position.Length} slopes has {Correlation.Length} entries; it needs {Position.Length * Position.Length}.");
        if (!(OuterRadius > 0) || double.IsInfinity(OuterRadius))
            throw new ArgumentException($"The outer radius is {OuterRadius}; it must be above 0.");
        if (Strength is double strength && (!(strength > 0) || double.IsInfinity(strength)))
            throw new ArgumentException($"The strength of smoothing is {strength}; it must be above 0.");
        if (Cells is < 4 or > 200)
            throw new ArgumentException($"The spline has {Cells} cells; 4 to 200 are allowed.");
        for (int k = 0; k < Position.Length; k++)
        {
            if (IsUsed(k) && (!(Sigma[k] > 0) || double.IsInfinity(Sigma[k]) || double.IsInfinity(Slope[k])))
                throw new ArgumentException($"Slope {k}, at {Position[k]}, is {Slope[k]} with a sigma of {Sigma[k]}; a measured slope is finite and its sigma above 0.");
        }

        int used = Enumerable.Range(0, Position.Length).Count(IsUsed);
        if (used < 3)
            throw new ArgumentException($"Only {used} slopes are measured inside of the outer radius {OuterRadius}; a profile needs 3 or more.");
    }

    internal bool IsUsed(int k) => !double.IsNaN(Slope[k]) && !double.IsNaN(Position[k]) && Position[k] != 0 && Math.Abs(Position[k]) < OuterRadius;
}
