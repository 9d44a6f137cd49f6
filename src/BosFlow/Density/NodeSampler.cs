using BosFlow.Displacement;

namespace BosFlow.Density;

/// <summary>
/// Interpolation between the nodes of a grid of which some are unknown: the weights of a polynomial through the 6 x 6, 4 x 4 or 2 x 2 nodes
/// around a place, whichever is the largest that is known completely. At the edge of the grid the 4 x 4 nodes nearest to the place serve.
/// </summary>
/// <remarks>The weights, not only the values, are given, so that the errors of the nodes can be propagated. Lagrange's formula.</remarks>
/// <param name="grid">The nodes.</param>
/// <param name="isKnown">Which of them may be used.</param>
internal sealed class NodeSampler(NodeGrid grid, bool[] isKnown)
{
    /// <summary>Length of buffers that hold any stencil.</summary>
    public const int LargestStencil = LargestSide * LargestSide;

    private const int LargestSide = 6;
    private const int EdgeSide = 4;

    // Outside the outermost nodes, but within this share of the spacing, the line through the last two is followed.
    private const double Reach = 0.5;

    /// <summary>Finds nodes and weights for a place.</summary>
    /// <param name="x">x, px.</param>
    /// <param name="y">y, px.</param>
    /// <param name="nodes">Receives the numbers of the nodes.</param>
    /// <param name="weights">Receives their weights, which add up to 1.</param>
    /// <returns>How many nodes; 0 where the place cannot be reached.</returns>
    public int Stencil(double x, double y, Span<int> nodes, Span<double> weights)
    {
        double column = (x - grid.OriginX) / grid.Spacing;
        double row = (y - grid.OriginY) / grid.Spacing;
        if (!(column >= -Reach && row >= -Reach && column <= grid.Columns - 1 + Reach && row <= grid.Rows - 1 + Reach))
            return 0;
        int left = Math.Clamp((int)Math.Floor(column), 0, Math.Max(0, grid.Columns - 2));
        int top = Math.Clamp((int)Math.Floor(row), 0, Math.Max(0, grid.Rows - 2));
        for (int side = LargestSide; side >= 2; side -= 2)
        {
            (int firstColumn, int firstRow) = (left - (side / 2) + 1, top - (side / 2) + 1);
            if (side == EdgeSide)
                (firstColumn, firstRow) = (Inside(firstColumn, grid.Columns), Inside(firstRow, grid.Rows));
            if (IsKnown(firstColumn, firstRow, side))
                return Fill(column, row, firstColumn, firstRow, side, nodes, weights);
        }

        return 0;
    }

    private static int Inside(int first, int count) => Math.Clamp(first, 0, Math.Max(0, count - EdgeSide));

    private bool IsKnown(int left, int top, int side)
    {
        if (left < 0 || top < 0 || left + side > grid.Columns || top + side > grid.Rows)
            return false;
        for (int row = top; row < top + side; row++)
        {
            for (int column = left; column < left + side; column++)
            {
                if (!isKnown[(row * grid.Columns) + column])
                    return false;
            }
        }

        return true;
    }

    private int Fill(double column, double row, int left, int top, int side, Span<int> nodes, Span<double> weights)
    {
        Span<double> across = stackalloc double[LargestSide];
        Span<double> down = stackalloc double[LargestSide];
        LagrangePolynomial.Weights(column - left, across[..side]);
        LagrangePolynomial.Weights(row - top, down[..side]);
        int count = 0;
        for (int j = 0; j < side; j++)
        {
            for (int i = 0; i < side; i++)
            {
                nodes[count] = ((top + j) * grid.Columns) + left + i;
                weights[count++] = across[i] * down[j];
            }
        }

        return count;
    }
}
