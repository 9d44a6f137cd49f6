using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics.X86;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Turns grey levels into B-spline coefficients: a recursive filter along columns, then along rows.</summary>
/// <remarks>
/// Whole-sample symmetric borders. The sum that starts the recursion is cut where the pole's power falls below 1e-9.
/// Source: Unser 1999, IEEE Signal Process. Mag. 16(6):22, doi 10.1109/79.799930, box 2 (from memory; tests check interpolation at the samples).
/// </remarks>
internal static class BSplinePrefilter
{
    private const double Negligible = 1e-9;

    /// <summary>Columns that one call of <see cref="Columns"/> filters at most: they stay in the second-level cache.</summary>
    public const int StripColumns = 128;

    /// <summary>The filter along some neighbouring columns, in place.</summary>
    /// <param name="plane">Rows of "stride" floats from the first column on.</param>
    /// <param name="width">Columns, at most <see cref="StripColumns"/>.</param>
    /// <param name="height">Rows.</param>
    /// <param name="stride">Floats from one row to the next.</param>
    /// <param name="order">3 or 5.</param>
    public static void Columns(Span<float> plane, int width, int height, int stride, int order)
    {
        foreach (double pole in BSplineKernel.Poles(order))
            AlongColumns(plane, width, height, stride, (float)pole);
    }

    /// <summary>The filter along some rows, in place.</summary>
    public static void Rows(Span<float> plane, int width, int rows, int stride, int order) => AlongRows(plane, width, rows, stride, BSplineKernel.Poles(order));

    /// <summary>The filter along rows alone: coefficients of a spline in x for each row.</summary>
    public static void RunAlongRows(Span<float> plane, int width, int height, int stride, int order) => Rows(plane, width, height, stride, order);

    /// <summary>The filter along columns alone: coefficients of a spline in y for each column.</summary>
    public static void RunAlongColumns(Span<float> plane, int width, int height, int stride, int order)
    {
        for (int first = 0; first < width; first += StripColumns)
            Columns(plane[first..], Math.Min(StripColumns, width - first), height, stride, order);
    }

    private static int Horizon(float pole) => (int)Math.Ceiling(Math.Log(Negligible) / Math.Log(Math.Abs(pole)));

    // Index of sample k of the mirrored line: 0 1 2 3 2 1 0 1 ... for n = 4.
    private static int Mirrored(int k, int n)
    {
        int folded = k % ((2 * n) - 2);
        return folded < n ? folded : (2 * n) - 2 - folded;
    }

    private static void AlongColumns(Span<float> plane, int width, int height, int stride, float pole)
    {
        float gain = (1 - pole) * (1 - (1 / pole));
        Span<float> first = plane[..width];
        Span<float> firstBefore = stackalloc float[StripColumns];
        first.CopyTo(firstBefore);
        float power = pole;
        for (int k = 1; k < Horizon(pole); k++, power *= pole)
        {
            int row = Mirrored(k, height);
            AddScaled(first, row == 0 ? firstBefore[..width] : plane.Slice(row * stride, width), power);
        }

        Scale(first, gain);
        for (int y = 1; y < height; y++)
            Forward(plane.Slice(y * stride, width), plane.Slice((y - 1) * stride, width), gain, pole);

        Span<float> last = plane.Slice((height - 1) * stride, width);
        ReadOnlySpan<float> beforeLast = plane.Slice((height - 2) * stride, width);
        float end = pole / ((pole * pole) - 1);
        for (int x = 0; x < width; x++)
            last[x] = end * (last[x] + (pole * beforeLast[x]));
        for (int y = height - 2; y >= 0; y--)
            Backward(plane.Slice(y * stride, width), plane.Slice((y + 1) * stride, width), pole);
    }

    // A block of rows, one a lane, is transposed so that the recursion runs on whole vectors.
    private static void AlongRows(Span<float> plane, int width, int rows, int stride, double[] poles)
    {
        int lanes = Vector<float>.Count;
        float[] rented = ArrayPool<float>.Shared.Rent(width * lanes);
        Span<float> flat = rented.AsSpan(0, width * lanes);
        Span<Vector<float>> block = MemoryMarshal.Cast<float, Vector<float>>(flat);
        for (int y = 0; y < rows; y += lanes)
        {
            Span<float> lines = plane[(y * stride)..];
            int count = Math.Min(lanes, rows - y);
            int done = count == 8 && lanes == 8 && Avx.IsSupported ? Transpose8.RowsToColumns(lines, stride, width, flat) : 0;
            for (int lane = 0; lane < count; lane++)
            {
                for (int x = done; x < width; x++)
                    flat[(x * lanes) + lane] = lines[(lane * stride) + x];
            }

            foreach (double pole in poles)
                Recursion(block, (float)pole);
            if (done > 0)
                Transpose8.ColumnsToRows(flat, width, lines, stride);
            for (int lane = 0; lane < count; lane++)
            {
                for (int x = done; x < width; x++)
                    lines[(lane * stride) + x] = flat[(x * lanes) + lane];
            }
        }

        ArrayPool<float>.Shared.Return(rented);
    }

    private static void Recursion(Span<Vector<float>> line, float pole)
    {
        int n = line.Length;
        float gain = (1 - pole) * (1 - (1 / pole));
        Vector<float> sum = line[0];
        float power = pole;
        for (int k = 1; k < Horizon(pole); k++, power *= pole)
            sum += line[Mirrored(k, n)] * power;
        Vector<float> previous = sum * gain;
        line[0] = previous;
        for (int x = 1; x < n; x++)
        {
            previous = (line[x] * gain) + (previous * pole);
            line[x] = previous;
        }

        previous = (line[n - 1] + (line[n - 2] * pole)) * (pole / ((pole * pole) - 1));
        line[n - 1] = previous;
        for (int x = n - 2; x >= 0; x--)
        {
            previous = (previous - line[x]) * pole;
            line[x] = previous;
        }
    }

    private static void Forward(Span<float> row, ReadOnlySpan<float> previous, float gain, float pole)
    {
        Span<Vector<float>> wideRow = MemoryMarshal.Cast<float, Vector<float>>(row);
        ReadOnlySpan<Vector<float>> widePrevious = MemoryMarshal.Cast<float, Vector<float>>(previous);
        for (int i = 0; i < wideRow.Length; i++)
            wideRow[i] = (wideRow[i] * gain) + (widePrevious[i] * pole);
        for (int x = wideRow.Length * Vector<float>.Count; x < row.Length; x++)
            row[x] = (row[x] * gain) + (previous[x] * pole);
    }

    private static void Scale(Span<float> row, float factor)
    {
        Span<Vector<float>> wide = MemoryMarshal.Cast<float, Vector<float>>(row);
        for (int i = 0; i < wide.Length; i++)
            wide[i] *= factor;
        for (int x = wide.Length * Vector<float>.Count; x < row.Length; x++)
            row[x] *= factor;
    }

    private static void AddScaled(Span<float> target, ReadOnlySpan<float> source, float factor)
    {
        Span<Vector<float>> wideTarget = MemoryMarshal.Cast<float, Vector<float>>(target);
        ReadOnlySpan<Vector<float>> wideSource = MemoryMarshal.Cast<float, Vector<float>>(source);
        for (int i = 0; i < wideTarget.Length; i++)
            wideTarget[i] += wideSource[i] * factor;
        for (int x = wideTarget.Length * Vector<float>.Count; x < target.Length; x++)
            target[x] += source[x] * factor;
    }

    private static void Backward(Span<float> row, ReadOnlySpan<float> next, float pole)
    {
        Span<Vector<float>> wideRow = MemoryMarshal.Cast<float, Vector<float>>(row);
        ReadOnlySpan<Vector<float>> wideNext = MemoryMarshal.Cast<float, Vector<float>>(next);
        for (int i = 0; i < wideRow.Length; i++)
            wideRow[i] = (wideNext[i] - wideRow[i]) * pole;
        for (int x = wideRow.Length * Vector<float>.Count; x < row.Length; x++)
            row[x] = (next[x] - row[x]) * pole;
    }
}
