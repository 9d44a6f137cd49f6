using System.Numerics;
using BosFlow.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>Fits a polynomial instead of a shift to what remains of the displacement within a window, and takes its value in the middle; what depends on the reference alone is computed once a run.</summary>
/// <remarks>
/// <para>
/// The model is that of <see cref="LeastSquaresMatch"/> with p a polynomial of the place: e = p_x(x, y) gx + p_y(x, y) gy + a A + b. Of the inverse of its normal matrix only the two rows that give p_x and p_y in the middle are kept.
/// Gain, correlation and residual are those of the shift alone; sigma^2 is the residual's variance times the diagonal of the inverse.
/// </para>
/// <para>
/// Where dots or masks determine the polynomial badly, its variance more than <see cref="LargestVarianceRatio"/> times that of the shift, the next lower degree is taken, and at last the shift. Evenly spread texture has 3.5 to 4.5 with second degree and 1 with first degree
/// (<see cref="ShapeKernel"/>). Least squares with polynomials: A. Savitzky and M. J. E. Golay 1964, Anal. Chem. 36:1627 (from memory); the sums are derived here.
/// </para>
/// </remarks>
internal sealed class ShapeSolver
{
    /// <summary>Largest variance of the polynomial's value over that of the shift with which it is taken.</summary>
    public const double LargestVarianceRatio = 8;

    // Below this share of usable pixels a window counts as cut: the middle of the rest may lie a twentieth of a side or more beside the vector's place.
    private const double LeastWhole = 0.9;

    private readonly int columns;
    private readonly int unknowns;
    private readonly float[][] rowsOfInverse;
    private readonly float[] sigmaRatioU;
    private readonly float[] sigmaRatioV;
    private readonly byte[] orders;
    private readonly bool[] anyOrder;
    private readonly bool onlyCut;

    /// <summary>The polynomials of the windows of the reference; null where every window fits a shift.</summary>
    /// <param name="windows">The windows.</param>
    /// <param name="reference">Their blocks.</param>
    /// <param name="shape">What is asked for; with <see cref="WindowShape.Constant"/> windows that the mask cuts are of first degree.</param>
    public static ShapeSolver? Of(ReferenceWindows windows, BlockReference reference, WindowShape shape) =>
        shape == WindowShape.Constant && !Enumerable.Range(0, windows.Flags.Length).Any(node => IsCut(windows, node)) ? null : new ShapeSolver(windows, reference, shape);

    private ShapeSolver(ReferenceWindows windows, BlockReference reference, WindowShape shape)
    {
        NodeGrid grid = windows.Layout.Grid;
        onlyCut = shape == WindowShape.Constant;
        anyOrder = new bool[grid.Rows];
        Functions = new ShapeFunctions(shape, reference.Layout.PerWindow, reference.Layout.Side);
        Layout = reference.Layout;
        columns = grid.Columns;
        unknowns = (2 * Functions.Count) + 2;
        rowsOfInverse = [.. Enumerable.Range(0, 2 * unknowns).Select(_ => new float[grid.Count])];
        sigmaRatioU = [.. Enumerable.Repeat(1f, grid.Count)];
        sigmaRatioV = [.. Enumerable.Repeat(1f, grid.Count)];
        orders = new byte[grid.Count];
        var matrix = new ShapeMatrix(Functions, reference);
        for (int row = 0; row < grid.Rows; row++)
        {
            if (!Enumerable.Range(row * columns, columns).Any(node => IsWanted(windows, node)))
                continue;
            matrix.Begin(row * Layout.PerStep);
            for (int column = 0; column < columns; column++)
                Prepare((row * columns) + column, column * Layout.PerStep, matrix, windows);
            anyOrder[row] = Orders(row).ContainsAnyExcept((byte)0);
        }
    }

    /// <summary>The polynomials.</summary>
    public ShapeFunctions Functions { get; }

    /// <summary>The blocks.</summary>
    public BlockLayout Layout { get; }

    /// <summary>Degree of the polynomial at a node, lower than asked for where the reference determines no more, 0 where the shift stays.</summary>
    public byte OrderAt(int node) => orders[node];

    /// <summary>The same of a row of nodes.</summary>
    public ReadOnlySpan<byte> Orders(int row) => orders.AsSpan(row * columns, columns);

    /// <summary>Whether any window of a row of nodes has a polynomial.</summary>
    public bool AnyOrder(int row) => anyOrder[row];

    /// <summary>Variance at a node over that of the shift, mean of both components; 1 where the shift stays.</summary>
    public double VarianceRatio(int node) => (((double)sigmaRatioU[node] * sigmaRatioU[node]) + ((double)sigmaRatioV[node] * sigmaRatioV[node])) / 2;

    /// <summary>Working memory for rows of windows.</summary>
    public ShapeMoments NewMoments() => new(Functions, Layout, columns);

    /// <summary>Replaces shift and sigma of a row of windows by those of the polynomial in the middle.</summary>
    /// <param name="row">Row of nodes.</param>
    /// <param name="moments">Sums with the polynomials as weights.</param>
    /// <param name="windowSums">Sums of the row as <see cref="WindowSolver.Solve"/> takes them.</param>
    /// <param name="matches">The solutions for a shift alone; changed.</param>
    public void Solve(int row, ShapeMoments moments, ReadOnlySpan<float> windowSums, MatchedRow matches)
    {
        int lanes = Vector<float>.Count, first = row * columns, column = 0;
        for (; column <= columns - lanes; column += lanes)
            SolveSideBySide(first + column, column, moments.Sums, windowSums, matches);
        for (; column < columns; column++)
            SolveOne(first + column, column, moments.Sums, windowSums, matches);
    }

    // The plain definition of SolveSideBySide.
    internal void SolveOne(int node, int column, ReadOnlySpan<float> sums, ReadOnlySpan<float> windowSums, MatchedRow matches)
    {
        matches.SigmaU[column] *= sigmaRatioU[node];
        matches.SigmaV[column] *= sigmaRatioV[node];
        if (orders[node] == 0 || float.IsNaN(matches.Du[column]))
            return;
        double u = 0, v = 0;
        for (int k = 0; k < unknowns; k++)
        {
            double sum = k < unknowns - 2 ? sums[(k * columns) + column] : windowSums[((k - unknowns + 4) * columns) + column];
            u += rowsOfInverse[k][node] * sum;
            v += rowsOfInverse[unknowns + k][node] * sum;
        }

        matches.Du[column] = (float)(-u / matches.Gain[column]);
        matches.Dv[column] = (float)(-v / matches.Gain[column]);
    }

    private void SolveSideBySide(int node, int column, ReadOnlySpan<float> sums, ReadOnlySpan<float> windowSums, MatchedRow matches)
    {
        Vector<float> u = Vector<float>.Zero, v = Vector<float>.Zero;
        for (int k = 0; k < unknowns; k++)
        {
            Vector<float> sum = new(k < unknowns - 2 ? sums[((k * columns) + column)..] : windowSums[(((k - unknowns + 4) * columns) + column)..]);
            u += new Vector<float>(rowsOfInverse[k], node) * sum;
            v += new Vector<float>(rowsOfInverse[unknowns + k], node) * sum;
        }

        Vector<float> du = new(matches.Du, column), dv = new(matches.Dv, column), gain = new(matches.Gain, column);
        Vector<float> ratioU = new(sigmaRatioU, node), ratioV = new(sigmaRatioV, node);

        // Where the shift stays, its ratio is 1 and the rows are zero; a window without a solution is NaN, which equals nothing.
        Vector<int> taken = ~Vector.Equals(new Vector<float>(rowsOfInverse[0], node), Vector<float>.Zero) & Vector.Equals(du, du);
        Vector.ConditionalSelect(taken, -u / gain, du).CopyTo(matches.Du, column);
        Vector.ConditionalSelect(taken, -v / gain, dv).CopyTo(matches.Dv, column);
        (new Vector<float>(matches.SigmaU, column) * ratioU).CopyTo(matches.SigmaU, column);
        (new Vector<float>(matches.SigmaV, column) * ratioV).CopyTo(matches.SigmaV, column);
    }

    private bool IsWanted(ReferenceWindows windows, int node) => windows.Flags[node] == VectorFlags.None && (!onlyCut || IsCut(windows, node));

    /// <summary>Whether the mask or the picture's border leaves so little of a window that a shift is that of a place beside its middle.</summary>
    public static bool IsCut(ReferenceWindows windows, int node) => windows.Flags[node] == VectorFlags.None && windows.Weight[node] < LeastWhole * windows.FullWeight;

    // The highest degree that is determined well enough.
    private void Prepare(int node, int left, ShapeMatrix matrix, ReferenceWindows windows)
    {
        if (!IsWanted(windows, node))
            return;
        Span<double> packed = stackalloc double[CholeskyFactor.PackedLength(unknowns)], u = stackalloc double[unknowns], v = stackalloc double[unknowns];
        for (byte order = Functions.Order; order > 0; order--)
        {
            int count = ShapeFunctions.CountOf(order), size = (2 * count) + 2;
            Span<double> ofU = u[..size], ofV = v[..size];
            matrix.Fill(left, count, packed);
            if (!CholeskyFactor.TryFactor(packed, size))
                continue;
            ofU.Clear();
            ofV.Clear();
            ofU[0] = ofV[count] = 1;
            CholeskyFactor.Solve(packed, ofU);
            CholeskyFactor.Solve(packed, ofV);
            double ratioU = ofU[0] / windows.InverseAt(node)[0], ratioV = ofV[count] / windows.InverseAt(node)[2];
            if (!(Math.Max(ratioU, ratioV) <= LargestVarianceRatio))
                continue;
            orders[node] = order;
            sigmaRatioU[node] = (float)Math.Sqrt(ratioU);
            sigmaRatioV[node] = (float)Math.Sqrt(ratioV);
            Keep(node, count, ofU, ofV);
            return;
        }
    }

    // Terms that a lower degree lacks stay 0.
    private void Keep(int node, int count, ReadOnlySpan<double> u, ReadOnlySpan<double> v)
    {
        for (int k = 0; k < u.Length; k++)
        {
            int place = k < count ? k : k < 2 * count ? k - count + Functions.Count : k - (2 * count) + (2 * Functions.Count);
            rowsOfInverse[place][node] = (float)u[k];
            rowsOfInverse[unknowns + place][node] = (float)v[k];
        }
    }
}
