using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>
/// The displacement every pixel is expected to have: node values beyond the background's motion, filled where they are
/// missing and smoothed, plus the motion itself; cubic between nodes. It only steers the deformation of the picture.
/// </summary>
/// <remarks>
/// A window measures what the predictor lacks, averaged over the window, and adds it to the predictor's value in the middle: whatever an interpolation between nodes
/// cuts off of a crest is counted twice. Straight lines between nodes cut off h^2 / 12 of the second derivative, 2 % of a wave of 12 spacings; cubic convolution
/// (R. Keys 1981, IEEE Trans. Acoust. Speech Signal Process. 29:1153, a = -1/2, formula from memory) cuts off nothing up to the third derivative.
/// </remarks>
internal sealed class PredictorField
{
    private readonly NodeGrid grid;
    private readonly int padColumns;
    private readonly int padRows;
    private readonly int columns;
    private readonly int rows;
    private readonly float[] motionU;
    private readonly float[] motionV;
    private readonly float[] leastU;
    private readonly float[] leastV;
    private readonly float[] mostU;
    private readonly float[] mostV;
    private readonly float[]? cellWeights;
    private readonly float[] lineU;
    private readonly float[] lineV;
    private float[] nodeU;
    private float[] nodeV;
    private float[] beforeU;
    private float[] beforeV;

    public PredictorField(NodeGrid grid, int width, int height)
    {
        this.grid = grid;
        padColumns = (int)Math.Ceiling(Math.Max(grid.OriginX, width - 1 - grid.X(grid.Columns - 1)) / grid.Spacing) + 2;
        padRows = (int)Math.Ceiling(Math.Max(grid.OriginY, height - 1 - grid.Y(grid.Rows - 1)) / grid.Spacing) + 2;
        columns = grid.Columns + (2 * padColumns);
        rows = grid.Rows + (2 * padRows);
        nodeU = new float[columns * rows];
        nodeV = new float[columns * rows];
        beforeU = new float[columns * rows];
        beforeV = new float[columns * rows];
        motionU = new float[columns * rows];
        motionV = new float[columns * rows];
        leastU = new float[rows];
        leastV = new float[rows];
        mostU = new float[rows];
        mostV = new float[rows];
        cellWeights = CellWeights();
        lineU = new float[columns];
        lineV = new float[columns];
    }

    /// <summary>Takes the motion that all passes over a frame start from.</summary>
    public void SetMotion(Registration.IPictureMotion motion)
    {
        for (int row = 0; row < rows; row++)
        {
            double y = grid.OriginY + ((row - padRows) * grid.Spacing);
            for (int column = 0; column < columns; column++)
            {
                (double u, double v) = motion.DisplacementAt(grid.OriginX + ((column - padColumns) * grid.Spacing), y);
                motionU[(row * columns) + column] = (float)u;
                motionV[(row * columns) + column] = (float)v;
            }
        }
    }

    /// <summary>Takes the displacement beyond the motion (complete, without NaN) and adds the motion; beyond the outermost nodes the former goes on linearly.</summary>
    public void Set(ReadOnlySpan<float> u, ReadOnlySpan<float> v)
    {
        Set(0, u);
        Set(1, v);
    }

    /// <summary>Takes one component, 0 for u and 1 for v; both may be taken at the same time.</summary>
    public void Set(int component, ReadOnlySpan<float> values)
    {
        if (component == 0)
        {
            (nodeU, beforeU) = (beforeU, nodeU);
            Spread(values, nodeU, motionU);
            FindRange(nodeU, leastU, mostU);
        }
        else
        {
            (nodeV, beforeV) = (beforeV, nodeV);
            Spread(values, nodeV, motionV);
            FindRange(nodeV, leastV, mostV);
        }
    }

    /// <summary>By how much the displacement was changed when it was taken last, along a row of places at equal distances that the distance of the nodes is a multiple of.</summary>
    /// <param name="component">0 for u, 1 for v.</param>
    /// <param name="y">Row of the picture, px.</param>
    /// <param name="x">First place, px.</param>
    /// <param name="step">From one place to the next, px.</param>
    /// <param name="line">Working memory: one float a column of nodes, those outside the grid included (<see cref="Columns"/>).</param>
    /// <param name="change">Result, px: one entry a place.</param>
    public void ChangeAlong(int component, double y, double x, int step, Span<float> line, Span<float> change)
    {
        (float[] now, float[] before) = component == 0 ? (nodeU, beforeU) : (nodeV, beforeV);
        double row = ((y - grid.OriginY) / grid.Spacing) + padRows, column = ((x - grid.OriginX) / grid.Spacing) + padColumns;
        int above = Math.Clamp((int)row, 1, rows - 3), phases = (int)(grid.Spacing / step);
        Span<float> weights = stackalloc float[4];
        Weights((float)(row - above), weights);
        line.Clear();
        for (int j = 0; j < 4; j++)
        {
            int at = (above - 1 + j) * columns;
            RowArithmetic.AddTimes(line, now.AsSpan(at, columns), weights[j]);
            RowArithmetic.AddTimes(line, before.AsSpan(at, columns), -weights[j]);
        }

        for (int phase = 0; phase < phases; phase++)
        {
            double place = column + ((double)phase / phases);
            Weights((float)(place - Math.Floor(place)), weights);
            RowArithmetic.FourTaps(line[((int)place - 1)..], weights, change[Math.Min(phase, change.Length)..], phases);
        }
    }

    /// <summary>Columns of nodes, those outside the grid included.</summary>
    public int Columns => columns;

    private void Spread(ReadOnlySpan<float> values, float[] target, float[] motion)
    {
        for (int row = 0; row < grid.Rows; row++)
        {
            Span<float> line = target.AsSpan((row + padRows) * columns, columns);
            values.Slice(row * grid.Columns, grid.Columns).CopyTo(line[padColumns..]);
            Continue(line, 1, padColumns, grid.Columns);
        }

        for (int column = 0; column < columns; column++)
            Continue(target.AsSpan(column), columns, padRows, grid.Rows);
        Add(target, motion);
    }

    private static void Add(float[] target, float[] motion)
    {
        int lanes = Vector<float>.Count, i = 0;
        for (; i <= target.Length - lanes; i += lanes)
            (new Vector<float>(target, i) + new Vector<float>(motion, i)).CopyTo(target, i);
        for (; i < target.Length; i++)
            target[i] += motion[i];
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

    /// <summary>Displacement at a node, as the deformation uses it, px.</summary>
    public (float U, float V) AtNode(int node)
    {
        int at = (((node / grid.Columns) + padRows) * columns) + (node % grid.Columns) + padColumns;
        return (nodeU[at], nodeV[at]);
    }

    /// <summary>The same at as many nodes of one row as a vector has lanes.</summary>
    public (Vector<float> U, Vector<float> V) AtNodes(int first)
    {
        int at = (((first / grid.Columns) + padRows) * columns) + (first % grid.Columns) + padColumns;
        return (new(nodeU, at), new(nodeV, at));
    }

    /// <summary>Displacement at any position within the picture, px: what <see cref="Row"/> gives at pixels.</summary>
    public (float U, float V) At(float x, float y)
    {
        Span<float> across = stackalloc float[4], down = stackalloc float[4];
        float placeX = (float)((x - grid.OriginX) / grid.Spacing) + padColumns, placeY = (float)((y - grid.OriginY) / grid.Spacing) + padRows;
        int left = Math.Clamp((int)placeX, 1, columns - 3), above = Math.Clamp((int)placeY, 1, rows - 3);
        Weights(placeX - left, across);
        Weights(placeY - above, down);
        float u = 0, v = 0;
        for (int j = 0; j < 4; j++)
        {
            int at = ((above - 1 + j) * columns) + left - 1;
            ReadOnlySpan<float> lineOfU = nodeU.AsSpan(at, 4), lineOfV = nodeV.AsSpan(at, 4);
            u += down[j] * ((across[0] * lineOfU[0]) + (across[1] * lineOfU[1]) + (across[2] * lineOfU[2]) + (across[3] * lineOfU[3]));
            v += down[j] * ((across[0] * lineOfV[0]) + (across[1] * lineOfV[1]) + (across[2] * lineOfV[2]) + (across[3] * lineOfV[3]));
        }

        return (u, v);
    }

    /// <summary>Displacement of the motion alone at a node, px.</summary>
    public (float U, float V) MotionAtNode(int node)
    {
        int at = (((node / grid.Columns) + padRows) * columns) + (node % grid.Columns) + padColumns;
        return (motionU[at], motionV[at]);
    }

    /// <summary>The row of nodes, counted from outside the grid, whose line lies above a row of pixels or on it; never the outermost rows, between which no cubic fits.</summary>
    public int NodesAbove(int y) => Math.Clamp((int)(((y - grid.OriginY) / grid.Spacing) + padRows), 1, rows - 3);

    /// <summary>Weights of the four rows of nodes around a row of pixels: the one before <paramref name="above"/>, it, and the two after.</summary>
    public void RowWeights(int y, int above, Span<float> weights) => Weights((float)(((y - grid.OriginY) / grid.Spacing) + padRows - above), weights);

    /// <summary>Displacement along a row of nodes, at every column of pixels: of the row of <see cref="NodesAbove"/>.</summary>
    /// <param name="row">Row of nodes, counted from outside the grid.</param>
    /// <param name="width">Pixels.</param>
    /// <param name="u">Displacement to the right, px; room for width + Vector lanes.</param>
    /// <param name="v">Displacement down, px; the same room.</param>
    public void AlongNodes(int row, int width, Span<float> u, Span<float> v)
    {
        Interpolate(nodeU.AsSpan(row * columns, columns), width, u);
        Interpolate(nodeV.AsSpan(row * columns, columns), width, v);
    }

    /// <summary>Smallest and largest displacement to the right that interpolation can make between the four rows of nodes around one, px.</summary>
    public (float Least, float Most) RangeU(int above) => Range(leastU, mostU, above);

    /// <summary>The same, down.</summary>
    public (float Least, float Most) RangeV(int above) => Range(leastV, mostV, above);

    // The negative weights of cubic convolution sum up to 1/8 along each axis at most: 0.27 of the span for both together.
    private static (float Least, float Most) Range(float[] leasts, float[] mosts, int above)
    {
        float least = float.PositiveInfinity, most = float.NegativeInfinity;
        for (int row = above - 1; row <= above + 2; row++)
        {
            least = Math.Min(least, leasts[row]);
            most = Math.Max(most, mosts[row]);
        }

        float beyond = 0.3f * (most - least);
        return (least - beyond, most + beyond);
    }

    private void FindRange(float[] nodes, float[] leasts, float[] mosts)
    {
        for (int row = 0; row < rows; row++)
            (leasts[row], mosts[row]) = RowArithmetic.Range(nodes.AsSpan(row * columns, columns));
    }

    /// <summary>Expected displacement along one row of pixels.</summary>
    /// <param name="y">Row of the picture.</param>
    /// <param name="width">Pixels in the row.</param>
    /// <param name="u">Displacement to the right, px; room for width + Vector lanes.</param>
    /// <param name="v">Displacement down, px; the same room.</param>
    public void Row(int y, int width, Span<float> u, Span<float> v)
    {
        double position = ((y - grid.OriginY) / grid.Spacing) + padRows;
        int above = Math.Clamp((int)position, 1, rows - 3);
        Span<float> weights = stackalloc float[4];
        Weights((float)(position - above), weights);
        (float w0, float w1, float w2, float w3) = (weights[0], weights[1], weights[2], weights[3]);
        for (int c = 0; c < columns; c++)
        {
            int at = (above * columns) + c;
            lineU[c] = (w0 * nodeU[at - columns]) + (w1 * nodeU[at]) + (w2 * nodeU[at + columns]) + (w3 * nodeU[at + (2 * columns)]);
            lineV[c] = (w0 * nodeV[at - columns]) + (w1 * nodeV[at]) + (w2 * nodeV[at + columns]) + (w3 * nodeV[at + (2 * columns)]);
        }

        Interpolate(lineU, width, u);
        Interpolate(lineV, width, v);
    }

    private static void Weights(float t, Span<float> weights)
    {
        weights[0] = t * (-0.5f + (t * (1 - (0.5f * t))));
        weights[1] = 1 + (t * t * (-2.5f + (1.5f * t)));
        weights[2] = t * (0.5f + (t * (2 - (1.5f * t))));
        weights[3] = t * t * (-0.5f + (0.5f * t));
    }

    // Whole vectors in every cell, each cell with the same weights; the last cell may run beyond the width, into the room of a vector.
    private void InterpolateCells(ReadOnlySpan<float> line, int width, Span<float> target)
    {
        int lanes = Vector<float>.Count, spacing = (int)grid.Spacing;
        double firstNode = grid.OriginX - (padColumns * grid.Spacing);
        for (int k = 0; k < spacing; k += lanes)
        {
            Vector<float> w0 = new(cellWeights!, k), w1 = new(cellWeights!, spacing + k), w2 = new(cellWeights!, (2 * spacing) + k), w3 = new(cellWeights!, (3 * spacing) + k);
            int left = (int)Math.Ceiling(firstNode + grid.Spacing) + k;
            for (int c = 1; c < columns - 2 && left < width; c++, left += spacing)
            {
                if (left <= -lanes)
                    continue;
                Vector<float> value = (line[c - 1] * w0) + (line[c] * w1) + (line[c + 1] * w2) + (line[c + 2] * w3);
                if (left >= 0)
                    value.CopyTo(target[left..]);
                else
                    Tail(value, -left, target);
            }
        }
    }

    // The lanes from one on, at the start of the row.
    private static void Tail(Vector<float> value, int from, Span<float> target)
    {
        for (int lane = from; lane < Vector<float>.Count; lane++)
            target[lane - from] = value[lane];
    }

    private float[]? CellWeights()
    {
        int spacing = (int)grid.Spacing;
        if (spacing != grid.Spacing || spacing % Vector<float>.Count != 0)
            return null;
        float[] cell = new float[4 * spacing];
        double start = Math.Ceiling(grid.OriginX) - grid.OriginX;
        Span<float> weights = stackalloc float[4];
        for (int k = 0; k < spacing; k++)
        {
            Weights((float)((start + k) / spacing), weights);
            for (int j = 0; j < 4; j++)
                cell[(j * spacing) + k] = weights[j];
        }

        return cell;
    }

    // One cell between two nodes after the other: within it the displacement is a cubic in x. A cell's last vector may run
    // into the next cell, which then overwrites it.
    private void Interpolate(ReadOnlySpan<float> line, int width, Span<float> target)
    {
        if (cellWeights is not null)
        {
            InterpolateCells(line, width, target);
            return;
        }

        double firstNode = grid.OriginX - (padColumns * grid.Spacing);
        float inverse = (float)(1 / grid.Spacing);
        int lanes = Vector<float>.Count;
        int x = 0;
        for (int c = 1; c < columns - 2 && x < width; c++)
        {
            double left = firstNode + (c * grid.Spacing);
            int end = Math.Min(width, (int)Math.Ceiling(left + grid.Spacing));
            if (end <= x)
                continue;
            (float before, float here, float next, float after) = (line[c - 1], line[c], line[c + 1], line[c + 2]);
            Vector<float> c0 = new(here);
            Vector<float> c1 = new(0.5f * (next - before));
            Vector<float> c2 = new(before - (2.5f * here) + (2 * next) - (0.5f * after));
            Vector<float> c3 = new((0.5f * (after - before)) + (1.5f * (here - next)));
            Vector<float> t = Vector.CreateSequence((float)(x - left) * inverse, inverse);
            Vector<float> step = new(inverse * lanes);
            for (int k = x; k < end; k += lanes, t += step)
                (c0 + (t * (c1 + (t * (c2 + (t * c3)))))).CopyTo(target[k..]);
            x = end;
        }
    }
}
