using System.Runtime.InteropServices;
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
        if (places.Length is 8 or 16 && Avx.IsSupported && size % 8 == 0)
        {
            for (int x = 0; x < size; x += 8)
            {
                for (int lane = 0; lane < places.Length; lane += 8)
                    Square(picture, places.Slice(lane, 8), x, target.Slice((places.Length * x) + lane), places.Length);
            }

            return;
        }

        for (int lane = 0; lane < places.Length; lane++)
        {
            ReadOnlySpan<float> row = picture.Slice(places[lane], size);
            for (int x = 0, at = lane; x < row.Length; x++, at += places.Length)
                target[at] = row[x];
        }
    }

    /// <summary>Adds values and their squares lane by lane, of an even number of rows of lanes: T.Count sums and squares.</summary>
    public static void AddSquares<T>(Span<float> values, Span<float> sums, Span<float> squares)
        where T : struct, ILanes<T>
    {
        // Two of each, so that one addition need not wait for the other.
        T sum = T.Load(ref sums[0], 0), square = T.Load(ref squares[0], 0), odd = T.Of(0), oddSquare = T.Of(0);
        ref float first = ref MemoryMarshal.GetReference(values);
        for (nint i = 0; i < values.Length; i += 2 * T.Count)
        {
            T value = T.Load(ref first, i), next = T.Load(ref first, i + T.Count);
            sum += value;
            odd += next;
            square = T.MultiplyAdd(value, value, square);
            oddSquare = T.MultiplyAdd(next, next, oddSquare);
        }

        (sum + odd).Store(ref sums[0], 0);
        (square + oddSquare).Store(ref squares[0], 0);
    }

    // 8 x 8 floats, transposed by exchanging ever larger parts.
    private static void Square(ReadOnlySpan<float> picture, ReadOnlySpan<int> places, int x, Span<float> target, int lanes)
    {
        Vector256<float> r0 = Row(picture, places[0] + x), r1 = Row(picture, places[1] + x), r2 = Row(picture, places[2] + x), r3 = Row(picture, places[3] + x);
        Vector256<float> r4 = Row(picture, places[4] + x), r5 = Row(picture, places[5] + x), r6 = Row(picture, places[6] + x), r7 = Row(picture, places[7] + x);
        Transpose8.Exchange(ref r0, ref r1, ref r2, ref r3, ref r4, ref r5, ref r6, ref r7);
        r0.CopyTo(target);
        r1.CopyTo(target[lanes..]);
        r2.CopyTo(target[(2 * lanes)..]);
        r3.CopyTo(target[(3 * lanes)..]);
        r4.CopyTo(target[(4 * lanes)..]);
        r5.CopyTo(target[(5 * lanes)..]);
        r6.CopyTo(target[(6 * lanes)..]);
        r7.CopyTo(target[(7 * lanes)..]);
    }

    private static Vector256<float> Row(ReadOnlySpan<float> picture, int place) => Vector256.Create(picture.Slice(place, 8));
}
