using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Numerics.Interpolation;

/// <summary>The recursive filter of <see cref="BSplinePrefilter"/> along one row, 16 pixels at a time.</summary>
/// <remarks>
/// y(n) = x(n) + z y(n - 1) within a vector by doubling: with one, two, four and eight lanes of distance every lane has the sum over all lanes before it, and the vector before adds its last value times z, z^2, ..., z^16.
/// That last value follows from the one before it by one multiplication, so that vectors hardly wait for each other.
/// </remarks>
internal static class BSplineRow
{
    private const int Lanes = 16;

    /// <summary>Whether this processor has what the filter is made of.</summary>
    public static bool IsSupported => Avx512F.IsSupported;

    /// <summary>Filters a row for one pole.</summary>
    /// <param name="source">Values; may be the row itself.</param>
    /// <param name="row">Result, as long as the source, at least two values.</param>
    /// <param name="pole">Pole, between -1 and 0.</param>
    /// <param name="gain">What the values are multiplied with.</param>
    /// <param name="start">First value that the forward recursion gives.</param>
    public static void Filter(ReadOnlySpan<float> source, Span<float> row, float pole, float gain, float start)
    {
        Forward(ref MemoryMarshal.GetReference(source), ref MemoryMarshal.GetReference(row), row.Length, pole, gain, start);
        float end = pole / ((pole * pole) - 1) * (row[^1] + (pole * row[^2]));
        Backward(ref MemoryMarshal.GetReference(row), row.Length, pole, end);
    }

    private static void Forward(ref float source, ref float row, int length, float pole, float gain, float start)
    {
        Powers(pole, out float two, out float four, out float eight, out float sixteen);
        Vector512<float> reach = Reach(pole, upwards: true);
        Vector512<int> last = Vector512.Create(Lanes - 1);
        Vector512<float> carry = Vector512.Create((start - (source * gain)) / pole);
        int x = 0;
        for (; x <= length - Lanes; x += Lanes)
        {
            Vector512<float> sum = Vector512.LoadUnsafe(ref source, (nuint)x) * gain;
            sum = Vector512.FusedMultiplyAdd(Up(sum, Lanes - 1), Vector512.Create(pole), sum);
            sum = Vector512.FusedMultiplyAdd(Up(sum, Lanes - 2), Vector512.Create(two), sum);
            sum = Vector512.FusedMultiplyAdd(Up(sum, Lanes - 4), Vector512.Create(four), sum);
            sum = Vector512.FusedMultiplyAdd(Up(sum, Lanes - 8), Vector512.Create(eight), sum);
            Vector512.FusedMultiplyAdd(carry, reach, sum).StoreUnsafe(ref row, (nuint)x);
            carry = Vector512.FusedMultiplyAdd(carry, Vector512.Create(sixteen), Avx512F.PermuteVar16x32(sum, last));
        }

        float before = carry.GetElement(0);
        for (; x < length; x++)
        {
            before = (Unsafe.Add(ref source, x) * gain) + (before * pole);
            Unsafe.Add(ref row, x) = before;
        }
    }

    private static void Backward(ref float row, int length, float pole, float end)
    {
        int x = length - 1;
        float after = (end / pole) + Unsafe.Add(ref row, x);
        for (; x >= length / Lanes * Lanes; x--)
        {
            after = (after - Unsafe.Add(ref row, x)) * pole;
            Unsafe.Add(ref row, x) = after;
        }

        Powers(pole, out float two, out float four, out float eight, out float sixteen);
        Vector512<float> reach = Reach(pole, upwards: false), carry = Vector512.Create(after);
        for (x = (length / Lanes * Lanes) - Lanes; x >= 0; x -= Lanes)
        {
            Vector512<float> sum = Vector512.LoadUnsafe(ref row, (nuint)x) * -pole;
            sum = Vector512.FusedMultiplyAdd(Down(sum, 1), Vector512.Create(pole), sum);
            sum = Vector512.FusedMultiplyAdd(Down(sum, 2), Vector512.Create(two), sum);
            sum = Vector512.FusedMultiplyAdd(Down(sum, 4), Vector512.Create(four), sum);
            sum = Vector512.FusedMultiplyAdd(Down(sum, 8), Vector512.Create(eight), sum);
            Vector512.FusedMultiplyAdd(carry, reach, sum).StoreUnsafe(ref row, (nuint)x);
            carry = Vector512.FusedMultiplyAdd(carry, Vector512.Create(sixteen), Avx512F.PermuteVar16x32(sum, Vector512<int>.Zero));
        }
    }

    private static void Powers(float pole, out float two, out float four, out float eight, out float sixteen)
    {
        two = pole * pole;
        four = two * two;
        eight = four * four;
        sixteen = eight * eight;
    }

    // pole^1 to pole^16 of the distance to the neighbouring vector.
    private static Vector512<float> Reach(float pole, bool upwards)
    {
        Span<float> powers = stackalloc float[Lanes];
        float power = pole;
        for (int k = 0; k < Lanes; k++, power *= pole)
            powers[upwards ? k : Lanes - 1 - k] = power;
        return Vector512.Create<float>(powers);
    }

    // Every lane takes the value of the lane so many places below, given as what is left of 16; 0 where there is none.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<float> Up(Vector512<float> values, [ConstantExpected] byte left) =>
        Avx512F.AlignRight32(values.AsInt32(), Vector512<int>.Zero, left).AsSingle();

    // The same from above.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<float> Down(Vector512<float> values, [ConstantExpected] byte by) =>
        Avx512F.AlignRight32(Vector512<int>.Zero, values.AsInt32(), by).AsSingle();
}
