using System.Numerics;
using BosFlow.Numerics.Robust;

namespace BosFlow.Displacement;

/// <summary>
/// The normalised-median test for many vectors side by side, as a screen: it passes only vectors that <see cref="VectorValidation"/> would surely pass, which are nearly all.
/// </summary>
internal sealed class NeighbourScreen(NodeGrid grid)
{
    // Single precision here and double precision there may differ in the last digits; whatever is this near to the threshold is left to the exact test.
    private const float Safe = 0.999f;

    private readonly float[] knownU = new float[grid.Count];
    private readonly float[] knownV = new float[grid.Count];

    /// <summary>Takes some of the vectors; those that are not trusted become NaN, which makes every neighbour doubtful.</summary>
    public void Load(int first, int end, float[] u, float[] v, bool[] trusted)
    {
        for (int node = first; node < end; node++)
        {
            knownU[node] = trusted[node] ? u[node] : float.NaN;
            knownV[node] = trusted[node] ? v[node] : float.NaN;
        }
    }

    /// <summary>Marks the vectors of a row that need the exact test.</summary>
    public void Doubtful(int row, double threshold, double noise, Span<bool> doubtful)
    {
        doubtful.Fill(true);
        if (row == 0 || row == grid.Rows - 1)
            return;
        int lanes = Vector<float>.Count, first = row * grid.Columns, last = grid.Columns - 1 - lanes;
        Vector<float> e = new((float)noise), limit = new((float)(Safe * threshold * threshold));
        if (last < 1)
            return;
        // The last vector overlaps the one before, so that only the border is left.
        for (int step = 1; step < last + lanes; step += lanes)
        {
            int column = Math.Min(step, last);
            Vector<float> u = Residual(knownU, first + column, e), v = Residual(knownV, first + column, e);
            Vector<int> passed = Vector.LessThanOrEqual((u * u) + (v * v), limit);
            if (Vector.EqualsAll(passed, Vector<int>.AllBitsSet))
            {
                doubtful.Slice(column, lanes).Clear();
                continue;
            }

            for (int lane = 0; lane < lanes; lane++)
                doubtful[column + lane] = passed[lane] == 0;
        }
    }

    // |U - U_m| / (r_m + e); NaN where any of the nine is.
    private Vector<float> Residual(float[] values, int at, Vector<float> noise)
    {
        int above = at - grid.Columns, below = at + grid.Columns;
        Vector<float> centre = new(values, at);
        Vector<float> n0 = new(values, above - 1), n1 = new(values, above), n2 = new(values, above + 1), n3 = new(values, at - 1);
        Vector<float> n4 = new(values, at + 1), n5 = new(values, below - 1), n6 = new(values, below), n7 = new(values, below + 1);
        Vector<float> unknown = (n0 + n1 + n2 + n3 + n4 + n5 + n6 + n7) * Vector<float>.Zero;
        Vector<float> median = MedianOfEight.Of(n0, n1, n2, n3, n4, n5, n6, n7);
        Vector<float> scatter = MedianOfEight.Of(
            Vector.Abs(n0 - median), Vector.Abs(n1 - median), Vector.Abs(n2 - median), Vector.Abs(n3 - median),
            Vector.Abs(n4 - median), Vector.Abs(n5 - median), Vector.Abs(n6 - median), Vector.Abs(n7 - median));
        return (Vector.Abs(centre - median) / (scatter + noise)) + unknown;
    }
}
