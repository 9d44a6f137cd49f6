using System.Collections.Concurrent;
using System.Numerics;
using System.Runtime.InteropServices;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>How the residuals of a frame scatter from place to place: what the error of a vector is where they are not independent from pixel to pixel.</summary>
/// <remarks>
/// <para>
/// A window's solution is p = M s, M the inverse of its normal matrix N and s the sum of its blocks' sums s_b. A block moves it by z_b = c (s_b - N_b p), c the row of M that belongs to u or v and N_b the block's part of N; residuals
/// of variance s^2, independent from pixel to pixel, make z_b^2 = s^2 l_b (1 - l_b / M_uu) in the mean, l_b = c N_b c. The ratio of what is found to what is expected, over the blocks within a window's side around a window,
/// is the factor by which s^2 M_uu is wrong. It is the estimate of variance by groups, of which the blocks are the groups.
/// </para>
/// <para>
/// Dots that the edge of a block cuts make neighbouring blocks differ with opposite signs, so that what interpolation does to small dots is counted too high, by a part that falls with the side of the blocks. Groups of
/// 2 x 2 blocks tell how much, over the whole frame (<see cref="EdgeShare"/>).
/// </para>
/// <para>
/// Source: H. White 1980, Econometrica 48:817, and its form for groups (from memory). Derived here: the sums and the part of the edges. Every second row of blocks is looked at, which leaves some 70 blocks around a window of 32 px: the factor's own standard error is about a sixth.
/// </para>
/// </remarks>
internal sealed class BlockScatter(ReferenceWindows windows, BlockReference reference, BlockSums sums)
{
    /// <summary>Rows of blocks from one that is rated to the next.</summary>
    public const int RowStep = 2;

    // Found and expected, for u and v.
    private const int Terms = 4;
    private const int RowsPerPart = 16;
    private readonly BlockLayout layout = reference.Layout;
    private readonly MatchedRow solutions = new(windows.Layout.Grid.Count);
    private readonly float[] found = new float[(reference.Layout.Rows + 1) / RowStep * Terms * reference.Layout.Columns];
    private readonly EdgeShare edges = new(reference.Layout, reference.EdgeScatter, reference.SharedScatter);
    private readonly ConcurrentBag<Workspace> idle = [];

    /// <summary>Windows of half the side, for the nodes whose solution is theirs; null where there are none.</summary>
    public HalfWindows? Half { get; set; }

    private int Rows => (layout.Rows + 1) / RowStep;

    /// <summary>Keeps the solutions of a row of windows for the rating.</summary>
    public void Keep(int row, MatchedRow matches) => matches.CopyTo(solutions, row * windows.Layout.Grid.Columns);

    /// <summary>Keeps the solution of one window instead.</summary>
    public void Keep(int node, MatchedWindow match) => solutions.Set(node, match);

    /// <summary>All solutions that were kept, one a node.</summary>
    public MatchedRow Solutions => solutions;

    /// <summary>The solution that was kept.</summary>
    public MatchedWindow At(int node) => solutions.At(node);

    /// <summary>Rates every node.</summary>
    public void Rate(NodeState state, FrameThreads threads, CancellationToken cancellationToken)
    {
        threads.Run(Parts(Rows), part => RateBlocks(part * RowsPerPart, Math.Min((part + 1) * RowsPerPart, Rows), state), cancellationToken);
        float left = (float)edges.Left();
        int nodeRows = windows.Layout.Grid.Rows;
        threads.Run(Parts(nodeRows), part => RateNodes(part * RowsPerPart, Math.Min((part + 1) * RowsPerPart, nodeRows), left, state), cancellationToken);
    }

    private static int Parts(int rows) => (rows + RowsPerPart - 1) / RowsPerPart;

    private Span<float> Found(int row) => found.AsSpan(row * Terms * layout.Columns, Terms * layout.Columns);

    private void RateBlocks(int first, int end, NodeState state)
    {
        if (!idle.TryTake(out Workspace? work))
            work = new Workspace(layout);
        for (int row = first; row < end; row++)
        {
            RateRow(row * RowStep, 1, state, Found(row));
            if (!edges.Asks(row))
                continue;
            RateRow(row * RowStep, EdgeShare.Side, state, work.Down);
            edges.Tell(row, Found(row), work.Down);
        }

        idle.Add(work);
    }

    // All groups that begin in a row of blocks, overlapping.
    private void RateRow(int row, int side, NodeState state, Span<float> target)
    {
        int nodeRow = layout.NearestNode(row, windows.Layout.Grid.Rows);
        target.Clear();
        for (int column = 0; column < layout.Columns;)
        {
            if (RateSideBySide(row, column, side, nodeRow, state, target[column..]))
            {
                column += Vector<float>.Count;
                continue;
            }

            RateOne(row, column, side, nodeRow, state, target[column..]);
            column++;
        }
    }

    /// <summary>Rates the group of blocks that begins with one: found and expected for u, then for v, each "blocks of a row" after the other; nothing where its window was not measured, or is too small for the group, or the group misses pixels.</summary>
    internal void RateOne(int row, int column, int side, int nodeRow, NodeState state, Span<float> target)
    {
        int node = (nodeRow * windows.Layout.Grid.Columns) + layout.NearestNode(column, windows.Layout.Grid.Columns);
        if (state.Flags[node] == VectorFlags.None && IsComplete(row, column, side, side) && !(side > 1 && state.IsHalf[node]))
            Rate(row, column, side, node, state.IsHalf[node], target);
    }

    /// <summary>The same for as many neighbouring groups as a vector has lanes; false, and nothing done, unless they are complete and belong to as many neighbouring whole windows that were measured.</summary>
    internal bool RateSideBySide(int row, int column, int side, int nodeRow, NodeState state, Span<float> target)
    {
        int lanes = Vector<float>.Count, columns = windows.Layout.Grid.Columns, stride = layout.Columns;
        if (!IsComplete(row, column, side, lanes + side - 1))
            return false;
        int first = layout.NearestNode(column, columns), node = (nodeRow * columns) + first;
        bool plain = layout.NearestNode(column + lanes - 1, columns) == first + lanes - 1
            && !MemoryMarshal.AsBytes(state.Flags.AsSpan(node, lanes)).ContainsAnyExcept((byte)0) && !state.IsHalf.AsSpan(node, lanes).Contains(true);
        if (!plain)
            return false;
        ReadOnlySpan<float> n = reference.Statics(row)[column..], d = sums.Row(row)[column..];
        ReadOnlySpan<float> nBelow = side == 1 ? default : reference.Statics(row + 1)[column..], dBelow = side == 1 ? default : sums.Row(row + 1)[column..];
        Vector<float> At(ReadOnlySpan<float> values, ReadOnlySpan<float> below, int term)
        {
            int at = term * stride;
            return below.IsEmpty ? new Vector<float>(values[at..]) : new Vector<float>(values[at..]) + new Vector<float>(values[(at + 1)..]) + (new Vector<float>(below[at..]) + new Vector<float>(below[(at + 1)..]));
        }

        Vector<float> Inverse(int k) => reference.Solver.InverseAt(k, node);
        Vector<float> xx = At(n, nBelow, 0), xy = At(n, nBelow, 1), yy = At(n, nBelow, 2), ax = At(n, nBelow, 3), ay = At(n, nBelow, 4), aa = At(n, nBelow, 5), x = At(n, nBelow, 6), y = At(n, nBelow, 7), a = At(n, nBelow, 8), count = At(n, nBelow, 9);
        Vector<float> gain = new(solutions.Gain, node), p0 = -new Vector<float>(solutions.Du, node) * gain, p1 = -new Vector<float>(solutions.Dv, node) * gain;
        Vector<float> p2 = gain - Vector<float>.One, p3 = new(solutions.Offset, node);
        Vector<float> r0 = At(d, dBelow, 0) - (xx * p0) - (xy * p1) - (ax * p2) - (x * p3), r1 = At(d, dBelow, 1) - (xy * p0) - (yy * p1) - (ay * p2) - (y * p3);
        Vector<float> r2 = At(d, dBelow, 2) - (ax * p0) - (ay * p1) - (aa * p2) - (a * p3), r3 = At(d, dBelow, 3) - (x * p0) - (y * p1) - (a * p2) - (count * p3);
        Rate(Inverse(0), Inverse(1), Inverse(3), Inverse(6), Inverse(0), new Vector<float>(solutions.SigmaU, node), target);
        Rate(Inverse(1), Inverse(2), Inverse(4), Inverse(7), Inverse(2), new Vector<float>(solutions.SigmaV, node), target[(2 * stride)..]);
        return true;

        void Rate(Vector<float> c0, Vector<float> c1, Vector<float> c2, Vector<float> c3, Vector<float> own, Vector<float> sigma, Span<float> to)
        {
            Vector<float> moved = (c0 * r0) + (c1 * r1) + (c2 * r2) + (c3 * r3);
            Vector<float> expected = (c0 * ((c0 * xx) + (2 * ((c1 * xy) + (c2 * ax) + (c3 * x))))) + (c1 * ((c1 * yy) + (2 * ((c2 * ay) + (c3 * y))))) + (c2 * ((c2 * aa) + (2 * c3 * a))) + (c3 * c3 * count);
            Vector<float> share = expected / own, deviation = sigma * gain, variance = deviation * deviation;
            Vector<int> rated = Vector.LessThan(share, Vector<float>.One) & Vector.GreaterThan(variance, Vector<float>.Zero);
            Vector.ConditionalSelect(rated, moved * moved / (variance * (Vector<float>.One - share)), Vector<float>.Zero).CopyTo(to);
            Vector.ConditionalSelect(rated, share, Vector<float>.Zero).CopyTo(to[stride..]);
        }
    }

    // Whether all blocks of a rectangle lie in the picture and have all their pixels.
    private bool IsComplete(int row, int column, int rows, int columns)
    {
        if (column + columns > layout.Columns || row + rows > layout.Rows)
            return false;
        for (int i = row; i < row + rows; i++)
        {
            if (sums.AnyIncomplete(i) && sums.Incomplete(i).Slice(column, columns).ContainsAnyExcept((byte)0))
                return false;
        }

        return true;
    }

    // The plain definition.
    private void Rate(int row, int column, int side, int node, bool isHalf, Span<float> target)
    {
        Span<double> n = stackalloc double[BlockReference.StaticTerms], d = stackalloc double[TileProducts.Terms];
        n.Clear();
        d.Clear();
        for (int i = row; i < row + side; i++)
        {
            AddGroup(reference.Statics(i), column, side, n);
            AddGroup(sums.Row(i), column, side, d);
        }

        ReadOnlySpan<double> m = isHalf ? Half!.Windows.InverseAt(node) : windows.InverseAt(node);
        int stride = layout.Columns;
        double xx = n[0], xy = n[1], yy = n[2], ax = n[3], ay = n[4], aa = n[5], x = n[6], y = n[7], a = n[8], count = n[9];
        double gain = solutions.Gain[node], p0 = -solutions.Du[node] * gain, p1 = -solutions.Dv[node] * gain, p2 = gain - 1, p3 = solutions.Offset[node];
        double r0 = d[0] - (xx * p0) - (xy * p1) - (ax * p2) - (x * p3);
        double r1 = d[1] - (xy * p0) - (yy * p1) - (ay * p2) - (y * p3);
        double r2 = d[2] - (ax * p0) - (ay * p1) - (aa * p2) - (a * p3);
        double r3 = d[3] - (x * p0) - (y * p1) - (a * p2) - (count * p3);

        void Add(double c0, double c1, double c2, double c3, double own, double sigma, Span<float> to)
        {
            double moved = (c0 * r0) + (c1 * r1) + (c2 * r2) + (c3 * r3);
            double expected = (c0 * ((c0 * xx) + (2 * ((c1 * xy) + (c2 * ax) + (c3 * x))))) + (c1 * ((c1 * yy) + (2 * ((c2 * ay) + (c3 * y))))) + (c2 * ((c2 * aa) + (2 * c3 * a))) + (c3 * c3 * count);
            double share = expected / own, variance = sigma * gain * sigma * gain;
            if (!(share < 1) || !(variance > 0))
                return;
            to[0] = (float)(moved * moved / (variance * (1 - share)));
            to[stride] = (float)share;
        }

        Add(m[0], m[1], m[3], m[6], m[0], solutions.SigmaU[node], target);
        Add(m[1], m[2], m[4], m[7], m[2], solutions.SigmaV[node], target[(2 * stride)..]);
    }

    private void AddGroup(ReadOnlySpan<float> row, int column, int side, Span<double> terms)
    {
        for (int term = 0; term < terms.Length; term++)
        {
            foreach (float value in row.Slice((term * layout.Columns) + column, side))
                terms[term] += value;
        }
    }

    // A node's blocks are those of its window and of one window's side around it.
    private void RateNodes(int first, int end, float left, NodeState state)
    {
        int columns = windows.Layout.Grid.Columns;
        if (!idle.TryTake(out Workspace? work))
            work = new Workspace(layout);
        for (int row = first; row < end; row++)
        {
            int top = Math.Max(0, (row * layout.PerStep) - layout.PerWindow), bottom = Math.Min(layout.Rows, (row * layout.PerStep) + (2 * layout.PerWindow));
            work.Down.AsSpan().Clear();
            for (int k = (top + RowStep - 1) / RowStep; k * RowStep < bottom; k++)
                RowArithmetic.Add(work.Down, Found(k));
            Rate(0, left, work, state.ScatterU.AsSpan(row * columns, columns));
            Rate(2, left, work, state.ScatterV.AsSpan(row * columns, columns));
        }

        idle.Add(work);
    }

    private void Rate(int term, float left, Workspace work, Span<float> target)
    {
        Sum(term, work, work.Found);
        Sum(term + 1, work, work.Expected);
        RowArithmetic.Ratios(work.Found, work.Expected, 1, work.Found);
        for (int column = 0; column < target.Length; column++)
            target[column] = left * work.Found[column * layout.PerStep];
    }

    // One sum a block, also where no node begins there; beyond the picture nothing is found and nothing expected.
    private void Sum(int term, Workspace work, Span<float> sums)
    {
        work.Down.AsSpan(term * layout.Columns, layout.Columns).CopyTo(work.Wide.AsSpan(layout.PerWindow));
        RowArithmetic.SlidingSums(work.Wide, 3 * layout.PerWindow, 1, sums);
    }

    private sealed class Workspace(BlockLayout layout)
    {
        public float[] Down { get; } = new float[Terms * layout.Columns];

        public float[] Wide { get; } = new float[layout.Columns + (2 * layout.PerWindow)];

        public float[] Found { get; } = new float[layout.Columns - layout.PerWindow + 1];

        public float[] Expected { get; } = new float[layout.Columns - layout.PerWindow + 1];
    }
}
