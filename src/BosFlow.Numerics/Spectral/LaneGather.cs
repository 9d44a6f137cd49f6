using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Spectral;

/// <summary>Puts rows of several windows side by side, pixel by pixel: [x][lane].</summary>
internal static class LaneGather
{
    /// <summary>Reads "size" pixels at each place.</summary>
    public static void Rows(ReadOnlySpan<float> picture, ReadOnlySpan<int> places, int size, Span<float> target)
    {
        if (places.Length == 8 && Avx.IsSupported && size % 8 == 0)
        {
            for (int x = 0; x < size; x += 8)
                Square(picture, places, x, target.Slice(8 * x, 64));
            return;
        }

        for (int lane = 0; lane < places.Length; lane++)
        {
            ReadOnlySpan<float> row = picture.Slice(places[lane], size);
            for (int x = 0, at = lane; x < row.Length; x++, at += places.Length)
                target[at] = row[x];
        }
    }

    /// <summary>Adds values and their squares lane by lane.</summary>
    public static void AddSquares(ReadOnlySpan<float> values, int lanes, Span<float> sums, Span<float> squares)
    {
        if (lanes == 8 && Vector256.IsHardwareAccelerated)
        {
            Vector256<float> sum = Vector256.Create<float>(sums), square = Vector256.Create<float>(squares);
            for (int i = 0; i < values.Length; i += 8)
            {
                Vector256<float> value = Vector256.Create(values.Slice(i, 8));
                sum += value;
                square += value * value;
            }

            sum.CopyTo(sums);
            square.CopyTo(squares);
            return;
        }

        for (int i = 0; i < values.Length; i++)
        {
            sums[i % lanes] += values[i];
            squares[i % lanes] += values[i] * values[i];
        }
    }

    // 8 x 8 floats, transposed by exchanging ever larger parts.
    private static void Square(ReadOnlySpan<float> picture, ReadOnlySpan<int> places, int x, Span<float> target)
    {
        Vector256<float> r0 = Row(picture, places[0] + x), r1 = Row(picture, places[1] + x), r2 = Row(picture, places[2] + x), r3 = Row(picture, places[3] + x);
        Vector256<float> r4 = Row(picture, places[4] + x), r5 = Row(picture, places[5] + x), r6 = Row(picture, places[6] + x), r7 = Row(picture, places[7] + x);
        Transpose8.Exchange(ref r0, ref r1, ref r2, ref r3, ref r4, ref r5, ref r6, ref r7);
        r0.CopyTo(target);
        r1.CopyTo(target[8..]);
        r2.CopyTo(target[16..]);
        r3.CopyTo(target[24..]);
        r4.CopyTo(target[32..]);
        r5.CopyTo(target[40..]);
        r6.CopyTo(target[48..]);
        r7.CopyTo(target[56..]);
    }

    private static Vector256<float> Row(ReadOnlySpan<float> picture, int place) => Vector256.Create(picture.Slice(place, 8));
}
