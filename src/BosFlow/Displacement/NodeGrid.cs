namespace BosFlow.Displacement;

/// <summary>A regular grid of window centres in pixels of the reference picture.</summary>
/// <param name="OriginX">x of the first column of nodes, px (may be half-integer: the centre of an even window).</param>
/// <param name="OriginY">y of the first row of nodes, px.</param>
/// <param name="Spacing">Distance between neighbouring nodes in x and y, px, greater than 0.</param>
/// <param name="Columns">Number of nodes in x, at least 1.</param>
/// <param name="Rows">Number of nodes in y, at least 1.</param>
public sealed record NodeGrid(double OriginX, double OriginY, double Spacing, int Columns, int Rows)
{
    /// <summary>Number of nodes.</summary>
    public int Count => Columns * Rows;

    /// <summary>x of a column of nodes, px.</summary>
    /// <param name="column">0 to Columns - 1.</param>
    public double X(int column) => OriginX + (Spacing * column);

    /// <summary>y of a row of nodes, px.</summary>
    /// <param name="row">0 to Rows - 1.</param>
    public double Y(int row) => OriginY + (Spacing * row);
}
