using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>Solves a row of windows side by side: <see cref="LeastSquaresMatch"/> from sums of the difference e = G - A instead of G.</summary>
/// <remarks>
/// A is one of the functions that are fitted, so that fitting e gives the same shift and residual, and a gain less by one; the sums keep digits that G would cost them.
/// Everything that depends on the reference alone lies side by side for neighbouring windows.
/// </remarks>
internal sealed class WindowSolver
{
    // Inverse of the normal matrix (10), sum of A^2, sum of A, number of pixels.
    private const int Known = 13;

    private readonly float[][] known;
    private readonly int columns;

    public WindowSolver(ReferenceWindows windows, double[] totals)
    {
        columns = windows.Layout.Grid.Columns;
        int count = windows.Layout.Grid.Count;
        known = new float[Known][];
        for (int k = 0; k < Known; k++)
            known[k] = new float[count];
        for (int node = 0; node < count; node++)
        {
            for (int k = 0; k < 10; k++)
                known[k][node] = (float)windows.Inverse[(node * 10) + k];
            known[10][node] = (float)totals[(node * BlockReference.StaticTerms) + 5];
            known[11][node] = (float)totals[(node * BlockReference.StaticTerms) + 8];
            known[12][node] = (float)windows.Weight[node];
        }
    }

    /// <summary>An entry of the inverse of the normal matrix, packed as <see cref="ReferenceWindows.Inverse"/>, of neighbouring windows.</summary>
    /// <param name="k">Entry, 0 to 9.</param>
    /// <param name="node">First node.</param>
    public Vector<float> InverseAt(int k, int node) => At(k, node);

    /// <summary>Solves the windows of one row of nodes.</summary>
    /// <param name="row">Row of nodes.</param>
    /// <param name="sums">Sums over each window, [term * stride + column].</param>
    /// <param name="stride">Entries from one term to the next.</param>
    /// <param name="matches">Results.</param>
    public void Solve(int row, ReadOnlySpan<float> sums, int stride, MatchedRow matches)
    {
        int lanes = Vector<float>.Count, first = row * columns, column = 0;
        for (; column <= columns - lanes; column += lanes)
            SolveSideBySide(first + column, column, sums, stride, matches);
        for (; column < columns; column++)
            matches.Set(column, SolveOne(first + column, column, sums, stride));
    }

    // The plain definition of SolveSideBySide.
    internal MatchedWindow SolveOne(int node, int column, ReadOnlySpan<float> sums, int stride)
    {
        Span<double> inverse = stackalloc double[10];
        for (int k = 0; k < inverse.Length; k++)
            inverse[k] = known[k][node];
        Span<double> e = stackalloc double[LeastSquaresMatch.Terms];
        for (int term = 0; term < e.Length; term++)
            e[term] = sums[(term * stride) + column];
        return LeastSquaresMatch.TrySolveDifference(inverse, e, known[10][node], known[11][node], known[12][node], out MatchedWindow match)
            ? match
            : new MatchedWindow(double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
    }

    private void SolveSideBySide(int node, int column, ReadOnlySpan<float> sums, int stride, MatchedRow matches)
    {
        Vector<float> s0 = new(sums[column..]), s1 = new(sums[(stride + column)..]), s2 = new(sums[((2 * stride) + column)..]);
        Vector<float> s3 = new(sums[((3 * stride) + column)..]), s4 = new(sums[((4 * stride) + column)..]);
        Vector<float> i00 = At(0, node), i11 = At(2, node);
        Vector<float> p0 = (i00 * s0) + (At(1, node) * s1) + (At(3, node) * s2) + (At(6, node) * s3);
        Vector<float> p1 = (At(1, node) * s0) + (i11 * s1) + (At(4, node) * s2) + (At(7, node) * s3);
        Vector<float> p2 = (At(3, node) * s0) + (At(4, node) * s1) + (At(5, node) * s2) + (At(8, node) * s3);
        Vector<float> p3 = (At(6, node) * s0) + (At(7, node) * s1) + (At(8, node) * s2) + (At(9, node) * s3);
        Vector<float> one = Vector<float>.One, weight = At(12, node), level = s3 + At(11, node);
        Vector<float> gain = one + p2;
        Vector<float> variation = s4 + (2 * s2) + At(10, node) - (level * level / weight);
        Vector<float> residual = Vector.Max(Vector<float>.Zero, s4 - ((p0 * s0) + (p1 * s1) + (p2 * s2) + (p3 * s3)));
        Vector<float> variance = residual / Vector.Max(one, weight - new Vector<float>(4));
        Vector<int> solved = Vector.GreaterThan(variation, Vector<float>.Zero) & Vector.GreaterThan(gain, new Vector<float>((float)LeastSquaresMatch.LeastGain));
        Vector<float> inverseGain = one / gain;
        Vector.ConditionalSelect(solved, -p0 * inverseGain, new Vector<float>(float.NaN)).CopyTo(matches.Du, column);
        (-p1 * inverseGain).CopyTo(matches.Dv, column);
        Vector.SquareRoot(Vector.Max(Vector<float>.Zero, one - (residual / variation))).CopyTo(matches.Correlation, column);
        (Vector.SquareRoot(variance * i00) * inverseGain).CopyTo(matches.SigmaU, column);
        (Vector.SquareRoot(variance * i11) * inverseGain).CopyTo(matches.SigmaV, column);
        gain.CopyTo(matches.Gain, column);
        p3.CopyTo(matches.Offset, column);
    }

    private Vector<float> At(int k, int node) => new(known[k], node);
}
