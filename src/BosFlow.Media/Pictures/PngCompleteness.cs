using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Whether a PNG file is whole: every chunk inside the file with the right checksum, up to the closing one.</summary>
internal static class PngCompleteness
{
    // The most a deflate stream can grow by: 258 bytes for every 2 bits. Source: RFC 1951, section 3.2.5; zlib technical details.
    private const long MostExpansion = 1032;

    private static readonly uint[] CrcTable = [.. Enumerable.Range(0, 256).Select(static index => CrcOf((uint)index))];

    /// <summary>Why the file is not whole, as the end of a sentence; null where it is.</summary>
    internal static string? Problem(ReadOnlySpan<byte> file, PictureHeader header)
    {
        int offset = PngHeader.Signature.Length;
        long data = 0;
        while (true)
        {
            if (offset + 12 > file.Length)
                return Cut(file.Length);
            uint length = BinaryPrimitives.ReadUInt32BigEndian(file[offset..]);
            ReadOnlySpan<byte> type = file.Slice(offset + 4, 4);
            if (length > file.Length - offset - 12)
                return Cut(file.Length);
            ReadOnlySpan<byte> covered = file.Slice(offset + 4, 4 + (int)length);
            if (Crc(covered) != BinaryPrimitives.ReadUInt32BigEndian(file[(offset + 8 + (int)length)..]))
                return FormattableString.Invariant($"is damaged: the checksum of the chunk at byte {offset} does not match");
            if (type.SequenceEqual("IDAT"u8))
                data += length;
            if (type.SequenceEqual("IEND"u8))
                break;
            offset += 12 + (int)length;
        }

        long pixelBytes = (long)header.StoredHeight * ((((long)header.StoredWidth * header.BitsPerSample) + 7) / 8);
        return data * MostExpansion < pixelBytes
            ? FormattableString.Invariant($"is damaged: its {data} bytes of data cannot hold {header.StoredWidth} x {header.StoredHeight} px")
            : null;
    }

    private static string Cut(int length) => FormattableString.Invariant($"is truncated: the PNG file ends after {length} bytes, before its closing chunk");

    // Source: W3C PNG (Third Edition), annex D, CRC of ISO 3309 with the polynomial 0xEDB88320.
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte value in bytes)
            crc = CrcTable[(crc ^ value) & 0xFF] ^ (crc >> 8);
        return ~crc;
    }

    private static uint CrcOf(uint value)
    {
        for (int bit = 0; bit < 8; bit++)
            value = (value & 1) != 0 ? 0xEDB88320 ^ (value >> 1) : value >> 1;
        return value;
    }
}
