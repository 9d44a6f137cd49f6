using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Registration;

/// <summary>The normal equations of the similarity motion, eight vectors at a time: what <see cref="MotionLeastSquares"/> sums for any motion, written out.</summary>
/// <remarks>
/// With a point (x, y), its residual (r, s) and weight w the matrix holds sum w (x^2 + y^2), sum w x, sum w y and sum w alone, and the right side is
/// sum w (x r + y s), sum w (x s - y r), sum w r, sum w s. Eight sums side by side, added at the end in their order, whatever the processor.
/// </remarks>
internal static class SimilarityEquations
{
    private const int Unknowns = 4;

    /// <summary>Sets up the equations.</summary>
    /// <param name="h">The motion that the residuals are taken from: a similarity, 9 entries.</param>
    /// <param name="vectors">Scaled vectors.</param>
    /// <param name="factors">Factor on each vector's own weight; empty = 1.</param>
    /// <param name="normal">Normal matrix out, row-major.</param>
    /// <param name="right">Right side out.</param>
    public static void SetUp(ReadOnlySpan<double> h, MotionVectors vectors, ReadOnlySpan<double> factors, Span<double> normal, Span<double> right)
    {
        Span<Vector512<double>> sums = stackalloc Vector512<double>[2 * Unknowns];
        sums.Clear();
        int i = 0;
        for (; i + Vector512<double>.Count <= vectors.Count; i += Vector512<double>.Count)
        {
            Vector512<double> weight = Load(vectors.Weight, i);
            if (!factors.IsEmpty)
                weight *= Vector512.Create(factors.Slice(i, Vector512<double>.Count));
            Add(h, weight, Load(vectors.X, i), Load(vectors.Y, i), Load(vectors.TargetX, i), Load(vectors.TargetY, i), sums);
        }

        for (; i < vectors.Count; i++)
        {
            double weight = factors.IsEmpty ? vectors.Weight[i] : factors[i] * vectors.Weight[i];
            Add(h, First(weight), First(vectors.X[i]), First(vectors.Y[i]), First(vectors.TargetX[i]), First(vectors.TargetY[i]), sums);
        }

        Fill(sums, normal, right);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Load(double[] values, int at) => Vector512.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(values), (nuint)at);

    private static Vector512<double> First(double value) => Vector512.CreateScalar(value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(
        ReadOnlySpan<double> h, Vector512<double> weight, Vector512<double> x, Vector512<double> y, Vector512<double> targetX, Vector512<double> targetY, Span<Vector512<double>> sums)
    {
        Vector512<double> r = targetX - ((x * h[0]) + (y * h[1]) + Vector512.Create(h[2]));
        Vector512<double> s = targetY - ((x * h[3]) + (y * h[4]) + Vector512.Create(h[5]));
        Vector512<double> weightedX = weight * x, weightedY = weight * y;
        sums[0] += (weightedX * x) + (weightedY * y);
        sums[1] += weightedX;
        sums[2] += weightedY;
        sums[3] += weight;
        sums[4] += (weightedX * r) + (weightedY * s);
        sums[5] += (weightedX * s) - (weightedY * r);
        sums[6] += weight * r;
        sums[7] += weight * s;
    }

    private static void Fill(ReadOnlySpan<Vector512<double>> sums, Span<double> normal, Span<double> right)
    {
        double squares = Total(sums[0]), x = Total(sums[1]), y = Total(sums[2]), weights = Total(sums[3]);
        ReadOnlySpan<double> matrix =
        [
            squares, 0, x, y,
            0, squares, -y, x,
            x, -y, weights, 0,
            y, x, 0, weights,
        ];
        matrix.CopyTo(normal);
        for (int row = 0; row < Unknowns; row++)
            right[row] = Total(sums[Unknowns + row]);
    }

    private static double Total(Vector512<double> lanes)
    {
        double total = 0;
        for (int lane = 0; lane < Vector512<double>.Count; lane++)
            total += lanes[lane];
        return total;
    }
}
