using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>
/// The displacement every pixel is expected to have: node values beyond the background's motion, filled where they are
/// missing and smoothed, plus the motion itself; bilinear between nodes. It only steers the deformation of the picture.
/// </summary>
internal sealed class PredictorField
{
    private readonly NodeGrid grid;
    private readonly int padColumns;
    private readonly int padRows;
    private readonly int columns;
    private readonly int rows;
    private readonly float[] nodeU;
    private readonly float[] nodeV;
    private readonly float[] lineU;
    private readonly float[] lineV;

    public PredictorField(NodeGrid grid, int width, int height)
    {
        this.grid = grid;
        padColumns = (int)Math.Ceiling(Math.Max(grid.OriginX, width - 1 - grid.X(grid.Columns - 1)) / grid.Spacing) + 1;
        padRows = (int)Math.Ceiling(Math.Max(grid.OriginY, height - 1 - grid.Y(grid.Rows - 1)) / grid.Spacing) + 1;
        columns = grid.Columns + (2 * padColumns);
        rows = grid.Rows + (2 * padRows);
        nodeU = new float[columns * rows];
        nodeV = new float[columns * rows];
        lineU = new float[columns];
        lineV = new float[columns];
    }

    /// <summary>Takes the displacement beyond the motion (complete, without NaN) and adds the motion; beyond the outermost nodes the former goes on linearly.</summary>
    public void Set(ReadOnlySpan<float> u, ReadOnlySpan<float> v, Registration.PlanarMotion motion)
    {
        Spread(u, nodeU);
        Spread(v, nodeV);
        for (int row = 0; row < rows; row++)
        {
            double y = grid.OriginY + ((row - padRows) * grid.Spacing);
            for (int column = 0; column < columns; column++)
            {
                (double mu, double mv) = motion.DisplacementAt(grid.OriginX + ((column - padColumns) * grid.Spacing), y);
                nodeU[(row * columns) + column] += (float)mu;
                nodeV[(row * columns) + column] += (float)mv;
            }
        }
    }

    private void Spread(ReadOnlySpan<float> values, float[] target)
    {
        for (int row = 0; row < grid.Rows; row++)
        {
            Span<float> line = target.AsSpan((row + padRows) * columns, columns);
            values.Slice(row * grid.Columns, grid.Columns).CopyTo(line[padColumns..]);
            Continue(line, 1, padColumns, grid.Columns);
        }

        for (int column = 0; column < columns; column++)
            Continue(target.AsSpan(column), columns, padRows, grid.Rows);
    }

    // The slope is taken over as many nodes as are to be continued, so that noise does not grow with the distance.
    private static void Continue(Span<float> values, int step, int pad, int count)
    {
        int lever = Math.Min(pad, count - 1);
        int first = pad, last = pad + count - 1;
        float slopeBefore = lever == 0 ? 0 : (values[first * step] - values[(first + lever) * step]) / lever;
        float slopeAfter = lever == 0 ? 0 : (values[last * step] - values[(last - lever) * step]) / lever;
        for (int k = 1; k <= pad; k++)
        {
            values[(first - k) * step] = values[first * step] + (k * slopeBefore);
            values[(last + k) * step] = values[last * step] + (k * slopeAfter);
        }
    }

    /// <summary>Displacement at a node to which the shift that is left in the node's window has to be added, px.</summary>
    /// <remarks>
    /// What is left is measured against the mean over the window of the field that deforms the picture. Linear between its nodes, that field lies inside the
    /// curve through them, by h^2 / 12 of the second derivative in each direction on average over a cell (h the spacing, the mean of x (h - x) / 2): one
    /// twelfth of the second difference of the nodes. Without it a crest comes out too high (1 % at a wavelength of 8 windows of twice the spacing).
    /// </remarks>
    public (float U, float V) AtNode(int node)
    {
        int at = (((node / grid.Columns) + padRows) * columns) + (node % grid.Columns) + padColumns;
        return (OnTheCurve(nodeU, at), OnTheCurve(nodeV, at));
    }

    // The padding of a column and a row on every side has the neighbours of all nodes.
    private float OnTheCurve(float[] nodes, int at) =>
        nodes[at] + ((nodes[at - 1] + nodes[at + 1] + nodes[at - columns] + nodes[at + columns] - (4 * nodes[at])) / 12);

    /// <summary>Expected displacement along one row of pixels.</summary>
    /// <param name="y">Row of the picture.</param>
    /// <param name="width">Pixels in the row.</param>
    /// <param name="u">Displacement to the right, px; room for width + Vector lanes.</param>
    /// <param name="v">Displacement down, px; the same room.</param>
    public void Row(int y, int width, Span<float> u, Span<float> v)
    {
        double position = ((y - grid.OriginY) / grid.Spacing) + padRows;
        int above = Math.Clamp((int)position, 0, rows - 2);
        float fraction = (float)(position - above);
        for (int c = 0; c < columns; c++)
        {
            int at = (above * columns) + c;
            lineU[c] = nodeU[at] + ((nodeU[at + columns] - nodeU[at]) * fraction);
            lineV[c] = nodeV[at] + ((nodeV[at + columns] - nodeV[at]) * fraction);
        }

        Interpolate(lineU, width, u);
        Interpolate(lineV, width, v);
    }

    // One cell between two nodes after the other: within it the displacement is linear in x. A cell's last vector may run
    // into the next cell, which then overwrites it.
    private void Interpolate(float[] line, int width, Span<float> target)
    {
        double firstNode = grid.OriginX - (padColumns * grid.Spacing);
        float inverse = (float)(1 / grid.Spacing);
        int lanes = Vector<float>.Count;
        int x = 0;
        for (int c = 0; c < columns - 1 && x < width; c++)
        {
            double left = firstNode + (c * grid.Spacing);
            int end = Math.Min(width, (int)Math.Ceiling(left + grid.Spacing));
            if (end <= x)
                continue;
            float slope = (line[c + 1] - line[c]) * inverse;
            float start = line[c] + (slope * (float)(x - left));
            Vector<float> ramp = Vector.CreateSequence(start, slope);
            Vector<float> step = new(slope * lanes);
            for (int k = x; k < end; k += lanes, ramp += step)
                ramp.CopyTo(target[k..]);
            x = end;
        }
    }
}
