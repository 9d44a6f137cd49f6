using System.Buffers.Binary;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>Eight neighbouring pixels of a row and which of them count.</summary>
internal static class PixelLanes
{
    /// <summary>Pixels in a group.</summary>
    public const int Count = 8;

    /// <summary>All eight of a group count.</summary>
    public const byte All = 0xFF;

    private const ulong AllBytes = 0x0101010101010101;

    // Gathers the lowest bit of each byte into the highest byte.
    private const ulong Gather = 0x0102040810204080;

    /// <summary>Eight levels from a place on; 0 beyond the row's end.</summary>
    /// <param name="row">The row.</param>
    /// <param name="at">The place.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Levels(ReadOnlySpan<float> row, int at) =>
        at + Count <= row.Length ? Vector256.Create(row.Slice(at, Count)) : LastLevels(row[at..]);

    /// <summary>Which of eight pixels from a place on take part, a bit each, the first the lowest; none beyond the row's end.</summary>
    /// <param name="mask">The mask's row: 0 or 1 a pixel.</param>
    /// <param name="at">The place.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static byte Counting(ReadOnlySpan<byte> mask, int at) =>
        Bits(at + Count <= mask.Length ? BinaryPrimitives.ReadUInt64LittleEndian(mask.Slice(at, Count)) : LastBytes(mask[at..]));

    /// <summary>Which of eight values are numbers, a bit each.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static byte Numbers(Vector256<float> values) => (byte)Vector256.Equals(values, values).ExtractMostSignificantBits();

    /// <summary>Eight values with 0 in place of those that do not count.</summary>
    /// <param name="values">The values.</param>
    /// <param name="counting">Which of them count.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Kept(Vector256<float> values, byte counting) => counting == All ? values : SomeOf(values, counting);

    /// <summary>How many count.</summary>
    public static int Number(byte counting) => BitOperations.PopCount(counting);

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

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static Vector256<float> SomeOf(Vector256<float> values, byte counting)
    {
        Span<float> kept = stackalloc float[Count];
        for (int lane = 0; lane < Count; lane++)
            kept[lane] = (counting & (1 << lane)) != 0 ? values[lane] : 0;
        return Vector256.Create<float>(kept);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static byte Bits(ulong bytes) => bytes == AllBytes ? All : (byte)((bytes * Gather) >> 56);
}
