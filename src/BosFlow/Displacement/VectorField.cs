namespace BosFlow.Displacement;

/// <summary>
/// Displacement of the pattern at the nodes of a grid: position of a dot in the frame minus its position in the
/// reference, px, given at the position in the reference. Every array is row-major with Grid.Count entries.
/// </summary>
/// <remarks>Immutable to its readers, until its owner gives it back (<see cref="DisplacementEngine.Reuse"/>). A value that was not measured is NaN and its flag says why; a replaced value keeps its flag.</remarks>
public sealed class VectorField
{
    /// <summary>Grid of window centres, px of the reference.</summary>
    public required NodeGrid Grid { get; init; }

    /// <summary>Displacement to the right, px.</summary>
    public required float[] U { get; init; }

    /// <summary>Displacement down, px.</summary>
    public required float[] V { get; init; }

    /// <summary>Standard uncertainty of U, px (1 sigma).</summary>
    public required float[] SigmaU { get; init; }

    /// <summary>Standard uncertainty of V, px (1 sigma).</summary>
    public required float[] SigmaV { get; init; }

    /// <summary>What happened to each vector.</summary>
    public required VectorFlags[] Flags { get; init; }

    /// <summary>Normalised correlation of the window after deformation, -1 to 1.</summary>
    public required float[] Correlation { get; init; }

    /// <summary>Highest correlation peak divided by the second highest in the last correlation pass that covers the node, at least 1; NaN where unknown.</summary>
    public required float[] PeakRatio { get; init; }

    /// <summary>Side of the interrogation window that measured each vector, px, NaN where none did; null where all windows have one side.</summary>
    public float[]? WindowSide { get; init; }

    /// <summary>Degree of the polynomial that was fitted to the displacement within each vector's window, 0 where it was a shift, NaN where there is none; null where all windows were fitted with a shift.</summary>
    public float[]? ShapeOrder { get; init; }
}
