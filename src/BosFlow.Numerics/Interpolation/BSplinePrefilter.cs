using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics.X86;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Interpolation;

/// <summary>Turns grey levels into B-spline coefficients: a recursive filter along columns, then along rows.</summary>
/// <remarks>
/// Whole-sample symmetric borders (<see cref="MirroredIndex"/>). The sum that starts the recursion is cut where the pole's power falls below 1e-9.
/// Source: Unser 1999, IEEE Signal Process. Mag. 16(6):22, doi 10.1109/79.799930, box 2 (from memory; tests check interpolation at the samples).
/// </remarks>
internal static class BSplinePrefilter
{
    private const double Negligible = 1e-9;

    // Where a picture is cut into bands, the rows beyond a band reach until the poles' powers fall below half a unit in the last place of single precision.
    private const double NegligibleBeyond = 6e-8;

    // Columns that are filtered together: they stay in the second-level cache.
    private const int StripColumns = 128;

    /// <summary>Rows beyond a band that its coefficients depend on.</summary>
    /// <param name="order">3 or 5.</param>
    public static int RowsBeyond(int order)
    {
        int rows = 0;
        foreach (double pole in BSplineKernel.Poles(order))
            rows += Horizon((float)pole, NegligibleBeyond);
        return rows;
    }

    /// <summary>Both filters of a band of rows in one go, so that the picture is read once and its coefficients are written once.</summary>
    /// <param name="rows">Grey levels of the band and up to <see cref="RowsBeyond"/> rows on both sides, as far as the picture goes.</param>
    /// <param name="work">Working memory as long as the rows; may be the rows themselves.</param>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="above">Rows above the band.</param>
    /// <param name="count">Rows of the band.</param>
    /// <param name="coefficients">Takes the band: rows of "stride" floats from the first column on.</param>
    /// <param name="stride">Floats from one row of coefficients to the next.</param>
    /// <param name="order">3 or 5.</param>
    public static void Band(ReadOnlySpan<float> rows, Span<float> work, int width, int above, int count, Span<float> coefficients, int stride, int order)
    {
        ReadOnlySpan<double> poles = BSplineKernel.Poles(order);
        int height = rows.Length / width;
        bool isMirrored = above < RowsBeyond(order);
        AlongColumns(rows, width, work, width, height, width, (float)poles[0], isMirrored);
        foreach (double pole in poles[1..])
            AlongColumns(work, width, work, width, height, width, (float)pole, isMirrored);
        AlongRows(work.Slice(above * width, count * width), width, coefficients, width, count, stride, poles);
    }

    /// <summary>The filter along rows alone: coefficients of a spline in x for each row.</summary>
    public static void RunAlongRows(Span<float> plane, int width, int height, int stride, int order) =>
        AlongRows(plane, stride, plane, width, height, stride, BSplineKernel.Poles(order));

    /// <summary>The filter along columns alone: coefficients of a spline in y for each column.</summary>
    public static void RunAlongColumns(Span<float> plane, int width, int height, int stride, int order)
    {
        for (int first = 0; first < width; first += StripColumns)
        {
            Span<float> strip = plane[first..];
            foreach (double pole in BSplineKernel.Poles(order))
                AlongColumns(strip, stride, strip, Math.Min(StripColumns, width - first), height, stride, (float)pole);
        }
    }

    private static int Horizon(float pole, double negligible) => (int)Math.Ceiling(Math.Log(negligible) / Math.Log(Math.Abs(pole)));

    // The source may be the plane itself. Where the picture goes on above, the recursion may start with anything: the rows beyond the band forget it.
    private static void AlongColumns(ReadOnlySpan<float> source, int sourceStride, Span<float> plane, int width, int height, int stride, float pole, bool isMirrored = true)
    {
        float gain = Gain(pole);
        float[] rented = ArrayPool<float>.Shared.Rent(width);
        Span<float> first = rented.AsSpan(0, width);
        source[..width].CopyTo(first);
        float power = pole;
        for (int k = 1; isMirrored && k < Horizon(pole, Negligible); k++, power *= pole)
            AddScaled(first, source.Slice(MirroredIndex.Of(k, height) * sourceStride, width), power);
        Scale(first, gain);
        first.CopyTo(plane);
        ArrayPool<float>.Shared.Return(rented);
        for (int y = 1; y < height; y++)
            Forward(source.Slice(y * sourceStride, width), plane.Slice((y - 1) * stride, width), plane.Slice(y * stride, width), gain, pole);

        Span<float> last = plane.Slice((height - 1) * stride, width);
        ReadOnlySpan<float> beforeLast = plane.Slice((height - 2) * stride, width);
        float end = pole / ((pole * pole) - 1);
        for (int x = 0; x < width; x++)
            last[x] = end * (last[x] + (pole * beforeLast[x]));
        for (int y = height - 2; y >= 0; y--)
            Backward(plane.Slice(y * stride, width), plane.Slice((y + 1) * stride, width), pole);
    }

    // The source may be the plane itself.
    private static void AlongRows(ReadOnlySpan<float> source, int sourceStride, Span<float> plane, int width, int rows, int stride, ReadOnlySpan<double> poles)
    {
        if (!BSplineRow.IsSupported)
        {
            AlongRowsTogether(source, sourceStride, plane, width, rows, stride, poles);
            return;
        }

        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> from = source.Slice(y * sourceStride, width);
            Span<float> to = plane.Slice(y * stride, width);
            foreach (double pole in poles)
            {
                BSplineRow.Filter(from, to, (float)pole, Gain((float)pole), Start(from, (float)pole));
                from = to;
            }
        }
    }

    private static float Gain(float pole) => (1 - pole) * (1 - (1 / pole));

    private static float Start(ReadOnlySpan<float> line, float pole)
    {
        float sum = line[0], power = pole;
        for (int k = 1; k < Horizon(pole, Negligible); k++, power *= pole)
            sum += line[MirroredIndex.Of(k, line.Length)] * power;
        return sum * Gain(pole);
    }

    // The source may be the plane itself. A block of rows, one a lane, is transposed so that the recursion runs on whole vectors.
    private static void AlongRowsTogether(ReadOnlySpan<float> source, int sourceStride, Span<float> plane, int width, int rows, int stride, ReadOnlySpan<double> poles)
    {
        int lanes = Vector<float>.Count;
        float[] rented = ArrayPool<float>.Shared.Rent(width * lanes);
        Span<float> flat = rented.AsSpan(0, width * lanes);
        Span<Vector<float>> block = MemoryMarshal.Cast<float, Vector<float>>(flat);
        for (int y = 0; y < rows; y += lanes)
        {
            ReadOnlySpan<float> from = source[(y * sourceStride)..];
            Span<float> to = plane[(y * stride)..];
            int count = Math.Min(lanes, rows - y);
            int done = count == 8 && lanes == 8 && Avx.IsSupported ? Transpose8.RowsToColumns(from, sourceStride, width, flat) : 0;
            for (int lane = 0; lane < count; lane++)
            {
                for (int x = done; x < width; x++)
                    flat[(x * lanes) + lane] = from[(lane * sourceStride) + x];
            }

            foreach (double pole in poles)
                Recursion(block, (float)pole);
            if (done > 0)
                Transpose8.ColumnsToRows(flat, width, to, stride);
            for (int lane = 0; lane < count; lane++)
            {
                for (int x = done; x < width; x++)
                    to[(lane * stride) + x] = flat[(x * lanes) + lane];
            }
        }

        ArrayPool<float>.Shared.Return(rented);
    }

    private static void Recursion(Span<Vector<float>> line, float pole)
    {
        int n = line.Length;
        float gain = Gain(pole);
        Vector<float> sum = line[0];
        float power = pole;
        for (int k = 1; k < Horizon(pole, Negligible); k++, power *= pole)
            sum += line[MirroredIndex.Of(k, n)] * power;
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

    private static void Forward(ReadOnlySpan<float> levels, ReadOnlySpan<float> previous, Span<float> row, float gain, float pole)
    {
        Span<Vector<float>> wideRow = MemoryMarshal.Cast<float, Vector<float>>(row);
        ReadOnlySpan<Vector<float>> wideLevels = MemoryMarshal.Cast<float, Vector<float>>(levels), widePrevious = MemoryMarshal.Cast<float, Vector<float>>(previous);
        for (int i = 0; i < wideRow.Length; i++)
            wideRow[i] = (wideLevels[i] * gain) + (widePrevious[i] * pole);
        for (int x = wideRow.Length * Vector<float>.Count; x < row.Length; x++)
            row[x] = (levels[x] * gain) + (previous[x] * pole);
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
