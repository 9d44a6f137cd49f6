using BosFlow.Displacement;

namespace BosFlow.Pipeline;

/// <summary>How the value at one place follows from the nodes of a grid around it.</summary>
/// <remarks>
/// Cubic convolution over 4 x 4 nodes (R. Keys 1981, a = -1/2), exact for polynomials of second degree; bilinear over 2 x 2 where one of the outer
/// nodes is missing. Nothing is filled: where one of the inner four has no value, the place has none.
/// </remarks>
internal readonly record struct NodeInterpolation
{
    private readonly int column;
    private readonly int row;
    private readonly double acrossX;
    private readonly double acrossY;

    private NodeInterpolation(int column, int row, double acrossX, double acrossY)
    {
        this.column = column;
        this.row = row;
        this.acrossX = acrossX;
        this.acrossY = acrossY;
        IsInside = true;
    }

    /// <summary>Whether the place lies among the nodes.</summary>
    public bool IsInside { get; }

    /// <summary>The interpolation at a place, px; NaN lies outside.</summary>
    public static NodeInterpolation At(NodeGrid grid, double x, double y)
    {
        const double Rounding = 1e-9;
        double placeX = (x - grid.OriginX) / grid.Spacing;
        double placeY = (y - grid.OriginY) / grid.Spacing;
        if (!(placeX >= -Rounding && placeY >= -Rounding && placeX <= grid.Columns - 1 + Rounding && placeY <= grid.Rows - 1 + Rounding))
            return default;
        int column = Math.Clamp((int)placeX, 0, Math.Max(0, grid.Columns - 2));
        int row = Math.Clamp((int)placeY, 0, Math.Max(0, grid.Rows - 2));
        return new NodeInterpolation(column, row, placeX - column, placeY - row);
    }

    /// <summary>Flags of the inner nodes that count, together.</summary>
    public VectorFlags Flags(NodeGrid grid, VectorFlags[] flags)
    {
        const double Counts = 1e-6;
        VectorFlags all = VectorFlags.None;
        for (int i = 0; i < 4; i++)
        {
            if (Share(i % 2, acrossX) > Counts && Share(i / 2, acrossY) > Counts)
                all |= flags[Inner(grid, i)];
        }

        return all;
    }

    /// <summary>Whether all sixteen nodes are there and plain measurements.</summary>
    public bool IsCubic(NodeGrid grid, VectorFlags[] flags)
    {
        if (column < 1 || row < 1 || column + 2 >= grid.Columns || row + 2 >= grid.Rows)
            return false;
        for (int i = 0; i < 16; i++)
        {
            if (flags[((row - 1 + (i / 4)) * grid.Columns) + column - 1 + (i % 4)] != VectorFlags.None)
                return false;
        }

        return true;
    }

    /// <summary>Bilinear mean of the inner nodes.</summary>
    public double Linear(NodeGrid grid, float[] values)
    {
        double sum = 0;
        for (int i = 0; i < 4; i++)
        {
            double weight = Share(i % 2, acrossX) * Share(i / 2, acrossY);
            if (weight > 0)
                sum += weight * values[Inner(grid, i)];
        }

        return sum;
    }

    /// <summary>Cubic convolution over sixteen nodes.</summary>
    public double Cubic(NodeGrid grid, float[] values)
    {
        double sum = 0;
        for (int i = 0; i < 16; i++)
            sum += Keys(i % 4, acrossX) * Keys(i / 4, acrossY) * values[((row - 1 + (i / 4)) * grid.Columns) + column - 1 + (i % 4)];
        return sum;
    }

    /// <summary>Variance of the interpolated value over the variance of a node's, with errors that hang together as windows overlap.</summary>
    public double Variance(double[] correlation, bool cubic) => Variance(acrossX, correlation, cubic) * Variance(acrossY, correlation, cubic);

    private static double Variance(double across, double[] correlation, bool cubic)
    {
        int count = cubic ? 4 : 2;
        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
            {
                double weights = cubic ? Keys(i, across) * Keys(j, across) : Share(i, across) * Share(j, across);
                int apart = Math.Abs(i - j);
                sum += weights * (apart < correlation.Length ? correlation[apart] : 0);
            }
        }

        return sum;
    }

    private int Inner(NodeGrid grid, int i) =>
        (Math.Min(row + (i / 2), grid.Rows - 1) * grid.Columns) + Math.Min(column + (i % 2), grid.Columns - 1);

    private static double Share(int i, double across) => i == 0 ? 1 - across : across;

    private static double Keys(int i, double t) => i switch
    {
        0 => t * (-0.5 + (t * (1 - (0.5 * t)))),
        1 => 1 + (t * t * (-2.5 + (1.5 * t))),
        2 => t * (0.5 + (t * (2 - (1.5 * t)))),
        _ => t * t * (-0.5 + (0.5 * t)),
    };
}
