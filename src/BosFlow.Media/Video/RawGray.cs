using System.Buffers.Binary;
using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Grey levels from the bytes of a decoder.</summary>
internal static class RawGray
{
    /// <summary>A picture from whole numbers of one byte, or of two bytes with the least significant first.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="width">Width, px.</param>
    /// <param name="height">Height, px.</param>
    /// <param name="bytesPerLevel">1 or 2.</param>
    /// <param name="whiteLevel">White level, digital numbers.</param>
    /// <param name="stock">Where the picture's memory comes from.</param>
    internal static GrayImage Picture(ReadOnlySpan<byte> bytes, int width, int height, int bytesPerLevel, float whiteLevel, PictureStock stock)
    {
        int count = checked(width * height);
        if (bytesPerLevel == 1)
        {
            byte[] codes = stock.TakeCodes(count);
            bytes[..count].CopyTo(codes);
            return new GrayImage(width, height, codes, whiteLevel);
        }

        float[] levels = stock.TakeLevels(count);
        for (int i = 0; i < levels.Length; i++)
            levels[i] = BinaryPrimitives.ReadUInt16LittleEndian(bytes.Slice(2 * i, 2));
        return new GrayImage(width, height, levels, whiteLevel);
    }
}
