using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Finds the orientation in an Exif block, which is a small TIFF structure. A block that makes no sense counts as upright.</summary>
internal static class ExifOrientation
{
    /// <summary>Longest Exif block looked into; a JPEG segment holds no more.</summary>
    internal const int MaxBytes = 65536;

    private const ushort OrientationTag = 274;

    /// <summary>The orientation of a block that begins with the TIFF byte order mark.</summary>
    internal static Orientation Read(ReadOnlySpan<byte> block)
    {
        if (block.Length < 8)
            return Orientation.Upright;
        bool little = block[0] == (byte)'I';
        uint directory = UInt32(block[4..], little);
        if (directory > block.Length - 2)
            return Orientation.Upright;
        int entries = UInt16(block[(int)directory..], little);
        for (int entry = 0; entry < entries; entry++)
        {
            long offset = directory + 2 + (12L * entry);
            if (offset + 12 > block.Length)
                break;
            ReadOnlySpan<byte> fields = block.Slice((int)offset, 12);
            if (UInt16(fields, little) == OrientationTag)
                return From(UInt16(fields[8..], little));
        }

        return Orientation.Upright;
    }

    /// <summary>The orientation of a tag's value; numbers outside 1 to 8 count as upright, as viewers take them.</summary>
    internal static Orientation From(long value) => value is >= 1 and <= 8 ? (Orientation)value : Orientation.Upright;

    private static ushort UInt16(ReadOnlySpan<byte> bytes, bool little) =>
        little ? BinaryPrimitives.ReadUInt16LittleEndian(bytes) : BinaryPrimitives.ReadUInt16BigEndian(bytes);

    private static uint UInt32(ReadOnlySpan<byte> bytes, bool little) =>
        little ? BinaryPrimitives.ReadUInt32LittleEndian(bytes) : BinaryPrimitives.ReadUInt32BigEndian(bytes);
}
