using System.Numerics;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Moves sums of blocks from the displacement with which the frame was read to one that differs little from it, without reading the frame again.</summary>
/// <remarks>
/// <para>
/// A displacement that grows by d changes the difference e = G - A by h = c d.g, to first order, g the derivatives of the pattern and c the gain of the frame, so that with N the static sums of the reference
/// sum e gx grows by c (du Nxx + dv Nxy), sum e gy by c (du Nxy + dv Nyy), sum e A by c (du NxA + dv NyA), sum e by c (du Nx + dv Ny), and sum e^2 by 2 c (du sum e gx + dv sum e gy) + sum h^2. The derivatives of the reference hold noise,
/// which the frame does not have: the share x of it in the squares of the derivatives (<see cref="StatedSigma"/>) is left out of Nxx and Nyy. A pass after it is what it would be had the frame been read, but for terms of higher order.
/// </para>
/// <para>
/// What is left out, for dots of standard deviation s: a shift d of the pattern moves the sum by the part 1 - d^2 / (4 s^2) of it (the derivative of a Gaussian autocorrelation; derived), so that with d = 0.2 px and s = 0.75 px 2 % of d is missing, 0.004 px; most tiles have moved by a quarter of that, which leaves a hundredth of it.
/// </para>
/// </remarks>
internal sealed class MovedSums
{
    /// <summary>Largest displacement since the frame was read, px.</summary>
    public const float Furthest = 0.2f;

    private readonly BlockLayout layout;
    private readonly BlockReference reference;
    private readonly BlockSums sums;
    private readonly ReferenceWindows windows;
    private readonly int[] nearest;
    private readonly float[] movedU;
    private readonly float[] movedV;

    public MovedSums(ReferenceWindows windows, BlockReference reference, BlockSums sums)
    {
        layout = reference.Layout;
        this.windows = windows;
        this.reference = reference;
        this.sums = sums;
        nearest = [.. Enumerable.Range(0, layout.Columns).Select(column => layout.NearestNode(column, windows.Layout.Grid.Columns))];
        movedU = new float[layout.Rows * layout.Columns];
        movedV = new float[layout.Rows * layout.Columns];
    }

    /// <summary>Says that the frame was read everywhere in a row of blocks.</summary>
    public void Begin(int row)
    {
        Row(movedU, row).Clear();
        Row(movedV, row).Clear();
    }

    /// <summary>Moves a row of blocks to the present displacement, but for tiles that have moved too far.</summary>
    /// <param name="row">Row of blocks.</param>
    /// <param name="predictor">The displacement, and what it was before.</param>
    /// <param name="state">Which windows had half the side in the pass before.</param>
    /// <param name="solutions">Its solutions.</param>
    /// <param name="work">Working memory.</param>
    /// <param name="sampled">1 for every tile that is to be read again.</param>
    /// <returns>Whether there is any such tile.</returns>
    public bool Move(int row, PredictorField predictor, NodeState state, MatchedRow solutions, MovedRow work, Span<byte> sampled)
    {
        double y = layout.FirstY + (row * layout.Side) + ((layout.Side - 1) / 2.0), x = layout.FirstX + ((layout.Side - 1) / 2.0);
        predictor.ChangeAlong(0, y, x, layout.Side, work.Line, work.U);
        predictor.ChangeAlong(1, y, x, layout.Side, work.Line, work.V);
        RowArithmetic.Add(Row(movedU, row), work.U);
        RowArithmetic.Add(Row(movedV, row), work.V);
        bool any = FindFar(row, work, sampled);
        SetFactors(row, state, solutions, work);
        if (sums.AnyIncomplete(row))
            MoveIncomplete(row, work);
        MoveSideBySide(row, work);
        return any;
    }

    /// <summary>Puts how far the blocks in the middle of the windows have moved into the state.</summary>
    public void Tell(NodeState state)
    {
        NodeGrid grid = state.Grid;
        int middle = layout.PerWindow / 2;
        for (int row = 0; row < grid.Rows; row++)
        {
            ReadOnlySpan<float> u = Row(movedU, (row * layout.PerStep) + middle), v = Row(movedV, (row * layout.PerStep) + middle);
            for (int column = 0; column < grid.Columns; column++)
            {
                state.MovedU[(row * grid.Columns) + column] = u[(column * layout.PerStep) + middle];
                state.MovedV[(row * grid.Columns) + column] = v[(column * layout.PerStep) + middle];
            }
        }
    }

    private Span<float> Row(float[] blocks, int row) => blocks.AsSpan(row * layout.Columns, layout.Columns);

    // Their blocks are not moved, since they are summed anew.
    private bool FindFar(int row, MovedRow work, Span<byte> sampled)
    {
        Span<float> farU = Row(movedU, row), farV = Row(movedV, row);
        int perTile = TileRow.Columns / layout.Side;
        bool any = false;
        for (int tile = 0; tile < sampled.Length; tile++)
        {
            int first = tile * perTile, count = Math.Min(perTile, layout.Columns - first);
            bool far = false;
            for (int block = first; block < first + count; block++)
                far |= !(MathF.Abs(farU[block]) <= Furthest && MathF.Abs(farV[block]) <= Furthest);
            sampled[tile] = far ? (byte)1 : (byte)0;
            any |= far;
            if (!far)
                continue;
            farU.Slice(first, count).Clear();
            farV.Slice(first, count).Clear();
            work.U.AsSpan(first, count).Clear();
            work.V.AsSpan(first, count).Clear();
        }

        return any;
    }

    // Of the window whose centre is nearest.
    private void SetFactors(int row, NodeState state, MatchedRow solutions, MovedRow work)
    {
        int first = layout.NearestNode(row, windows.Layout.Grid.Rows) * windows.Layout.Grid.Columns;
        for (int column = 0; column < work.Nodes.Length; column++)
            work.Nodes[column] = Factors(first + column, state, solutions);
        for (int column = 0; column < layout.Columns; column++)
            (work.Gain[column], work.WithoutNoiseU[column], work.WithoutNoiseV[column]) = work.Nodes[nearest[column]];
    }

    // A window without a solution says nothing.
    private (float Gain, float WithoutNoiseU, float WithoutNoiseV) Factors(int node, NodeState state, MatchedRow solutions)
    {
        float gain = solutions.Gain[node], perSquare = (float)(reference.GradientNoise * (state.IsHalf[node] ? windows.Weight[node] / 4 : windows.Weight[node]));
        float shareU = solutions.SigmaU[node] * solutions.SigmaU[node] * perSquare, shareV = solutions.SigmaV[node] * solutions.SigmaV[node] * perSquare;
        return gain > 0 && shareU < 1 && shareV < 1 ? (gain, 1 - shareU, 1 - shareV) : (1, 1, 1);
    }

    private void MoveSideBySide(int row, MovedRow work)
    {
        int lanes = Vector<float>.Count, stride = layout.Columns, b = 0;
        Span<float> d = sums.Row(row);
        ReadOnlySpan<float> n = reference.Statics(row);
        for (; b <= stride - lanes; b += lanes)
        {
            Vector<float> gain = new(work.Gain, b), du = gain * new Vector<float>(work.U, b), dv = gain * new Vector<float>(work.V, b);
            Vector<float> xx = new Vector<float>(work.WithoutNoiseU, b) * At(n, 0, b), xy = At(n, 1, b), yy = new Vector<float>(work.WithoutNoiseV, b) * At(n, 2, b);
            Vector<float> ofX = (du * xx) + (dv * xy), ofY = (du * xy) + (dv * yy);
            Vector<float> s0 = At(d, 0, b), s1 = At(d, 1, b);
            (At(d, 4, b) + (2 * ((du * s0) + (dv * s1))) + (du * ofX) + (dv * ofY)).CopyTo(d[((4 * stride) + b)..]);
            (s0 + ofX).CopyTo(d[b..]);
            (s1 + ofY).CopyTo(d[(stride + b)..]);
            (At(d, 2, b) + (du * At(n, 3, b)) + (dv * At(n, 4, b))).CopyTo(d[((2 * stride) + b)..]);
            (At(d, 3, b) + (du * At(n, 6, b)) + (dv * At(n, 7, b))).CopyTo(d[((3 * stride) + b)..]);
        }

        for (; b < stride; b++)
            MoveBlock(row, b, work);

        Vector<float> At(ReadOnlySpan<float> values, int term, int block) => new(values[((term * stride) + block)..]);
    }

    // Each by itself; the others find that they have not moved.
    private void MoveIncomplete(int row, MovedRow work)
    {
        ReadOnlySpan<byte> incomplete = sums.Incomplete(row);
        for (int block = 0; block < incomplete.Length; block++)
        {
            if (incomplete[block] == 0)
                continue;
            MoveBlock(row, block, work);
            work.U[block] = work.V[block] = 0;
        }
    }

    // The plain definition; of an incomplete block only the pixels that are there move.
    private void MoveBlock(int row, int block, MovedRow work)
    {
        bool incomplete = sums.AnyIncomplete(row) && sums.Incomplete(row)[block] != 0;
        ReadOnlySpan<float> n = incomplete ? sums.Remainder(row, block) : reference.Statics(row)[block..];
        int from = incomplete ? 1 : layout.Columns, stride = layout.Columns;
        Span<float> d = sums.Row(row)[block..];
        float du = work.Gain[block] * work.U[block], dv = work.Gain[block] * work.V[block];
        float xx = work.WithoutNoiseU[block] * n[0], xy = n[from], yy = work.WithoutNoiseV[block] * n[2 * from];
        float ofX = (du * xx) + (dv * xy), ofY = (du * xy) + (dv * yy);
        d[4 * stride] += (2 * ((du * d[0]) + (dv * d[stride]))) + (du * ofX) + (dv * ofY);
        d[0] += ofX;
        d[stride] += ofY;
        d[2 * stride] += (du * n[3 * from]) + (dv * n[4 * from]);
        d[3 * stride] += (du * n[6 * from]) + (dv * n[7 * from]);
    }
}
