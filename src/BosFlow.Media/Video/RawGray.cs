using System.Buffers.Binary;
using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Grey levels from the bytes of a decoder.</summary>
internal static class RawGray
{
    /// <summary>A picture from whole numbers of one byte, or of two bytes with the least significant first.</summary>
    internal static GrayImage Picture(ReadOnlySpan<byte> bytes, int width, int height, int bytesPerLevel, float whiteLevel)
    {
        int count = checked(width * height);
        if (bytesPerLevel == 1)
            return new GrayImage(width, height, bytes[..count].ToArray(), whiteLevel);
        // Every level is written below.
        float[] levels = GC.AllocateUninitializedArray<float>(count);
        for (int i = 0; i < levels.Length; i++)
            levels[i] = BinaryPrimitives.ReadUInt16LittleEndian(bytes.Slice(2 * i, 2));
        return new GrayImage(width, height, levels, whiteLevel);
    }
}
