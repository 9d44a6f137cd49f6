using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Numerics.Vectors;

/// <summary>Turns eight rows of eight floats into columns, in registers.</summary>
internal static class Transpose8
{
    /// <summary>Turns eight rows into columns of eight, [x][row]; returns how many pixels of each row, a multiple of eight.</summary>
    public static int RowsToColumns(ReadOnlySpan<float> rows, int stride, int width, Span<float> columns)
    {
        int done = width - (width % 8);
        for (int x = 0; x < done; x += 8)
            Turn(rows[x..], stride, columns.Slice(8 * x, 64), 8);
        return done;
    }

    /// <summary>Turns columns of eight back into eight rows, as many pixels as <see cref="RowsToColumns"/> turned.</summary>
    public static void ColumnsToRows(ReadOnlySpan<float> columns, int width, Span<float> rows, int stride)
    {
        int done = width - (width % 8);
        for (int x = 0; x < done; x += 8)
            Turn(columns.Slice(8 * x, 64), 8, rows[x..], stride);
    }

    /// <summary>Turns eight rows of eight into columns.</summary>
    public static void Turn(ReadOnlySpan<float> from, int fromStride, Span<float> to, int toStride)
    {
        Vector256<float> r0 = Row(from, 0), r1 = Row(from, fromStride), r2 = Row(from, 2 * fromStride), r3 = Row(from, 3 * fromStride);
        Vector256<float> r4 = Row(from, 4 * fromStride), r5 = Row(from, 5 * fromStride), r6 = Row(from, 6 * fromStride), r7 = Row(from, 7 * fromStride);
        Exchange(ref r0, ref r1, ref r2, ref r3, ref r4, ref r5, ref r6, ref r7);
        r0.CopyTo(to);
        r1.CopyTo(to[toStride..]);
        r2.CopyTo(to[(2 * toStride)..]);
        r3.CopyTo(to[(3 * toStride)..]);
        r4.CopyTo(to[(4 * toStride)..]);
        r5.CopyTo(to[(5 * toStride)..]);
        r6.CopyTo(to[(6 * toStride)..]);
        r7.CopyTo(to[(7 * toStride)..]);
    }

    private static Vector256<float> Row(ReadOnlySpan<float> values, int place) => Vector256.Create(values.Slice(place, 8));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Exchange(
        ref Vector256<float> r0, ref Vector256<float> r1, ref Vector256<float> r2, ref Vector256<float> r3,
        ref Vector256<float> r4, ref Vector256<float> r5, ref Vector256<float> r6, ref Vector256<float> r7)
    {
        Vector256<float> a0 = Avx.UnpackLow(r0, r1), a1 = Avx.UnpackHigh(r0, r1), a2 = Avx.UnpackLow(r2, r3), a3 = Avx.UnpackHigh(r2, r3);
        Vector256<float> a4 = Avx.UnpackLow(r4, r5), a5 = Avx.UnpackHigh(r4, r5), a6 = Avx.UnpackLow(r6, r7), a7 = Avx.UnpackHigh(r6, r7);
        Vector256<float> b0 = Avx.Shuffle(a0, a2, 0x44), b1 = Avx.Shuffle(a0, a2, 0xEE), b2 = Avx.Shuffle(a1, a3, 0x44), b3 = Avx.Shuffle(a1, a3, 0xEE);
        Vector256<float> b4 = Avx.Shuffle(a4, a6, 0x44), b5 = Avx.Shuffle(a4, a6, 0xEE), b6 = Avx.Shuffle(a5, a7, 0x44), b7 = Avx.Shuffle(a5, a7, 0xEE);
        r0 = Avx.Permute2x128(b0, b4, 0x20);
        r1 = Avx.Permute2x128(b1, b5, 0x20);
        r2 = Avx.Permute2x128(b2, b6, 0x20);
        r3 = Avx.Permute2x128(b3, b7, 0x20);
        r4 = Avx.Permute2x128(b0, b4, 0x31);
        r5 = Avx.Permute2x128(b1, b5, 0x31);
        r6 = Avx.Permute2x128(b2, b6, 0x31);
        r7 = Avx.Permute2x128(b3, b7, 0x31);
    }
}
