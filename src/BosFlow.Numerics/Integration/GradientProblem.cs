namespace BosFlow.Numerics.Integration;

/// <summary>A measured gradient on a regular grid, and where its integral is wanted and known.</summary>
/// <remarks>All arrays are row-major with <see cref="Columns"/> * <see cref="Rows"/> entries; x runs along a row, y down a column. Inputs are never modified.</remarks>
public sealed record GradientProblem
{
    /// <summary>Nodes in a row, 1 or more.</summary>
    public required int Columns { get; init; }

    /// <summary>Number of rows, 1 or more.</summary>
    public required int Rows { get; init; }

    /// <summary>Distance of neighbouring nodes h, the same along x and y; above 0, in the unit of length of the gradient.</summary>
    public required double Spacing { get; init; }

    /// <summary>Derivative of the wanted values along x at each node; NaN where it was not measured.</summary>
    public required double[] GradientX { get; init; }

    /// <summary>Derivative of the wanted values along y at each node; NaN where it was not measured.</summary>
    public required double[] GradientY { get; init; }

    /// <summary>Standard uncertainty of <see cref="GradientX"/>; above 0 and finite wherever that is measured.</summary>
    public required double[] SigmaX { get; init; }

    /// <summary>Standard uncertainty of <see cref="GradientY"/>; above 0 and finite wherever that is measured.</summary>
    public required double[] SigmaY { get; init; }

    /// <summary>Nodes where a value is wanted, of any shape. Outside of it gradients are not used: its edge is a natural (Neumann) edge.</summary>
    public required bool[] Domain { get; init; }

    /// <summary>Values known exactly (Dirichlet); NaN where unknown. Ignored outside of <see cref="Domain"/>.</summary>
    public required double[] Known { get; init; }

    /// <summary>Checks sizes and sigmas.</summary>
    /// <exception cref="ArgumentException">An array has another length, the spacing is not above 0, a measured gradient is infinite or has no sigma above 0, a known value is infinite.</exception>
    public void Validate()
    {
        if (Columns < 1 || Rows < 1)
            throw new ArgumentException($"The grid has {Columns} columns and {Rows} rows; it needs 1 or more of each.");
        if (!(Spacing > 0) || !double.IsFinite(Spacing))
            throw new ArgumentException($"The spacing of the nodes is {Spacing}; it must be above 0.");
        int nodes = checked(Columns * Rows);
        CheckLength(GradientX.Length, nodes, nameof(GradientX));
        CheckLength(GradientY.Length, nodes, nameof(GradientY));
        CheckLength(SigmaX.Length, nodes, nameof(SigmaX));
        CheckLength(SigmaY.Length, nodes, nameof(SigmaY));
        CheckLength(Domain.Length, nodes, nameof(Domain));
        CheckLength(Known.Length, nodes, nameof(Known));
        for (int i = 0; i < nodes; i++)
        {
            CheckNode(i, GradientX[i], SigmaX[i], nameof(GradientX));
            CheckNode(i, GradientY[i], SigmaY[i], nameof(GradientY));
            if (double.IsInfinity(Known[i]))
                throw new ArgumentException($"{nameof(Known)} is infinite at row {i / Columns}, column {i % Columns}; give a number, or NaN where it is unknown.");
        }
    }

    private static void CheckLength(int length, int nodes, string name)
    {
        if (length != nodes)
            throw new ArgumentException($"{name} has {length} entries for a grid of {nodes} nodes.");
    }

    private void CheckNode(int i, double gradient, double sigma, string name)
    {
        if (double.IsNaN(gradient) || !Domain[i])
            return;
        if (double.IsInfinity(gradient))
            throw new ArgumentException($"{name} is infinite at row {i / Columns}, column {i % Columns}; give a number, or NaN where it was not measured.");
        if (!(sigma > 0) || double.IsInfinity(sigma))
            throw new ArgumentException($"{name} is measured at row {i / Columns}, column {i % Columns}, but its sigma is {sigma}; it must be above 0 and finite.");
    }
}
