using System.Buffers.Binary;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Footage;

/// <summary>Eight neighbouring pixels of a row and which of them count: all bits of a lane are set where the pixel counts.</summary>
internal static class PixelLanes
{
    /// <summary>Pixels in a group.</summary>
    public const int Count = 8;

    /// <summary>Eight levels from a place on; 0 beyond the row's end.</summary>
    /// <param name="row">The row.</param>
    /// <param name="at">The place.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Levels(ReadOnlySpan<float> row, int at) =>
        at + Count <= row.Length ? Vector256.Create(row.Slice(at, Count)) : LastLevels(row[at..]);

    /// <summary>Which of eight pixels from a place on take part; none beyond the row's end.</summary>
    /// <param name="mask">The mask's row: 0 or 1 a pixel.</param>
    /// <param name="at">The place.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<int> Counting(ReadOnlySpan<byte> mask, int at) =>
        Vector256<int>.Zero - Widened(at + Count <= mask.Length ? BinaryPrimitives.ReadUInt64LittleEndian(mask.Slice(at, Count)) : LastBytes(mask[at..]));

    /// <summary>Which of eight values are numbers.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<int> Numbers(Vector256<float> values) => Vector256.Equals(values, values).AsInt32();

    /// <summary>Eight values with 0 in place of those that do not count.</summary>
    /// <param name="values">The values.</param>
    /// <param name="counting">Which of them count.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Kept(Vector256<float> values, Vector256<int> counting) => (values.AsInt32() & counting).AsSingle();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Widened(ulong bytes)
    {
        Vector128<byte> eight = Vector128.CreateScalar(bytes).AsByte();
        if (Avx2.IsSupported)
            return Avx2.ConvertToVector256Int32(eight);
        Vector128<ushort> words = Vector128.WidenLower(eight);
        return Vector256.Create(Vector128.WidenLower(words), Vector128.WidenUpper(words)).AsInt32();
    }

    // What is rare stays out of the loops that use this: an array on the stack would keep the rest from being inlined.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static Vector256<float> LastLevels(ReadOnlySpan<float> levels)
    {
        Span<float> rest = stackalloc float[Count];
        rest.Clear();
        levels.CopyTo(rest);
        return Vector256.Create<float>(rest);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static ulong LastBytes(ReadOnlySpan<byte> mask)
    {
        Span<byte> rest = stackalloc byte[Count];
        rest.Clear();
        mask.CopyTo(rest);
        return BinaryPrimitives.ReadUInt64LittleEndian(rest);
    }
}
