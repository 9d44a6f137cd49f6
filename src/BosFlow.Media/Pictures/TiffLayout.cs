using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Byte order and field widths of a TIFF file.</summary>
/// <param name="IsLittle">Least significant byte first.</param>
/// <param name="IsBig">BigTIFF: offsets of eight bytes.</param>
internal sealed record TiffLayout(bool IsLittle, bool IsBig)
{
    internal int CountBytes => IsBig ? 8 : 2;

    internal int OffsetBytes => IsBig ? 8 : 4;

    internal int EntryBytes => IsBig ? 20 : 12;

    /// <summary>An unsigned number of 1, 2, 4 or 8 bytes.</summary>
    internal ulong Number(ReadOnlySpan<byte> bytes, int size) => (size, IsLittle) switch
    {
        (1, _) => bytes[0],
        (2, true) => BinaryPrimitives.ReadUInt16LittleEndian(bytes),
        (2, false) => BinaryPrimitives.ReadUInt16BigEndian(bytes),
        (4, true) => BinaryPrimitives.ReadUInt32LittleEndian(bytes),
        (4, false) => BinaryPrimitives.ReadUInt32BigEndian(bytes),
        (_, true) => BinaryPrimitives.ReadUInt64LittleEndian(bytes),
        (_, false) => BinaryPrimitives.ReadUInt64BigEndian(bytes),
    };
}
