using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Grey levels from the bytes of a decoder.</summary>
internal static class RawGray
{
    /// <summary>A picture from whole numbers of one byte, or of two bytes with the least significant first.</summary>
    internal static GrayImage Picture(ReadOnlySpan<byte> bytes, int width, int height, int bytesPerLevel, float whiteLevel)
    {
        // Every level is written below.
        float[] levels = GC.AllocateUninitializedArray<float>(checked(width * height));
        if (bytesPerLevel == 1)
            Widen(bytes[..levels.Length], levels);
        else
        {
            for (int i = 0; i < levels.Length; i++)
                levels[i] = BinaryPrimitives.ReadUInt16LittleEndian(bytes.Slice(2 * i, 2));
        }

        return new GrayImage(width, height, levels, whiteLevel);
    }

    private static void Widen(ReadOnlySpan<byte> bytes, Span<float> levels)
    {
        int whole = bytes.Length - (bytes.Length % Vector128<byte>.Count);
        ReadOnlySpan<Vector128<byte>> groups = MemoryMarshal.Cast<byte, Vector128<byte>>(bytes[..whole]);
        for (int i = 0; i < groups.Length; i++)
        {
            (Vector128<ushort> low, Vector128<ushort> high) = Vector128.Widen(groups[i]);
            Span<float> to = levels.Slice(i * Vector128<byte>.Count, Vector128<byte>.Count);
            Put(low, to);
            Put(high, to[Vector128<ushort>.Count..]);
        }

        for (int i = whole; i < bytes.Length; i++)
            levels[i] = bytes[i];
    }

    private static void Put(Vector128<ushort> codes, Span<float> to)
    {
        (Vector128<uint> low, Vector128<uint> high) = Vector128.Widen(codes);
        Vector128.ConvertToSingle(low.AsInt32()).CopyTo(to);
        Vector128.ConvertToSingle(high.AsInt32()).CopyTo(to[Vector128<float>.Count..]);
    }
}
