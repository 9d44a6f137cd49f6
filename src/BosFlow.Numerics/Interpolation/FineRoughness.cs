namespace BosFlow.Numerics.Interpolation;

/// <summary>The roughness of a <see cref="FineSpline"/>, whose growth with the eighth power of the frequency leaves coarse structure alone and suppresses what pictures cannot show.</summary>
/// <remarks>
/// The Laplacian of the grid of half pixels, in which coefficients without a neighbour lack its term, applied four times. A wave of f cycles a pixel is multiplied by about (pi f)^8.
/// </remarks>
internal static class FineRoughness
{
    /// <summary>target = roughness matrix times source.</summary>
    /// <param name="layout">Gives the layout.</param>
    /// <param name="source">Coefficients.</param>
    /// <param name="scratch">Working memory of the same length.</param>
    /// <param name="target">The product; the same length; not the source.</param>
    /// <param name="parallel">Threads and cancellation.</param>
    public static void Multiply(FineSpline layout, float[] source, float[] scratch, float[] target, ParallelOptions parallel)
    {
        Laplacian(layout, source, scratch, parallel);
        Laplacian(layout, scratch, target, parallel);
        Laplacian(layout, target, scratch, parallel);
        Laplacian(layout, scratch, target, parallel);
    }

    private static void Laplacian(FineSpline layout, float[] source, float[] target, ParallelOptions parallel) => Parallel.For(0, layout.Rows, parallel, row =>
    {
        int n = layout.HalfColumns;
        ReadOnlySpan<float> even = Part(row, 0, source), odd = Part(row, 1, source);
        Span<float> toEven = target.AsSpan(row * layout.Stride, n), toOdd = target.AsSpan((row * layout.Stride) + layout.Plane, n);
        for (int i = 0; i < n; i++)
        {
            toEven[i] = even[i] - odd[i];
            toOdd[i] = odd[i] - even[i];
        }

        for (int i = 1; i < n; i++)
        {
            toEven[i] += even[i] - odd[i - 1];
            toOdd[i - 1] += odd[i - 1] - even[i];
        }

        foreach (int other in (ReadOnlySpan<int>)[row - 1, row + 1])
        {
            if (other < 0 || other >= layout.Rows)
                continue;
            Subtract(even, Part(other, 0, source), toEven);
            Subtract(odd, Part(other, 1, source), toOdd);
        }

        ReadOnlySpan<float> Part(int r, int parity, float[] values) => values.AsSpan((r * layout.Stride) + (parity * layout.Plane), n);
    });

    private static void Subtract(ReadOnlySpan<float> here, ReadOnlySpan<float> there, Span<float> target)
    {
        for (int i = 0; i < target.Length; i++)
            target[i] += here[i] - there[i];
    }
}
