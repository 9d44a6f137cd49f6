using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Convolves a plane of numbers with symmetric weights along its rows and its columns, mirrored at the borders.</summary>
internal static class PlaneFilter
{
    /// <summary>Filters in place; besides the plane as many rows are kept as there are weights.</summary>
    /// <param name="plane">Row-major.</param>
    /// <param name="width">Numbers in a row.</param>
    /// <param name="alongX">Odd number of weights.</param>
    /// <param name="alongY">The same number of weights.</param>
    public static void Run(Span<float> plane, int width, ReadOnlySpan<float> alongX, ReadOnlySpan<float> alongY)
    {
        int height = plane.Length / width, reach = alongX.Length / 2, kept = alongX.Length;
        float[] wide = new float[width + (2 * reach)];
        float[] rows = new float[kept * width];
        for (int y = 0; y < height + reach; y++)
        {
            if (y < height)
                AlongRow(plane.Slice(y * width, width), alongX, wide, rows.AsSpan(y % kept * width, width));
            if (y < reach)
                continue;
            Span<float> target = plane.Slice((y - reach) * width, width);
            target.Clear();
            for (int i = -reach; i <= reach; i++)
                RowArithmetic.AddTimes(target, rows.AsSpan(MirroredIndex.Of(y - reach + i, height) % kept * width, width), alongY[reach + i]);
        }
    }

    private static void AlongRow(ReadOnlySpan<float> row, ReadOnlySpan<float> weights, float[] wide, Span<float> target)
    {
        int reach = weights.Length / 2;
        row.CopyTo(wide.AsSpan(reach));
        for (int i = 1; i <= reach; i++)
        {
            wide[reach - i] = row[MirroredIndex.Of(-i, row.Length)];
            wide[reach + row.Length - 1 + i] = row[MirroredIndex.Of(row.Length - 1 + i, row.Length)];
        }

        target.Clear();
        for (int i = 0; i < weights.Length; i++)
            RowArithmetic.AddTimes(target, wide.AsSpan(i, row.Length), weights[i]);
    }
}
