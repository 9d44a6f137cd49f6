using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace BosFlow.Media.Tests;

/// <summary>PNG files put together byte by byte. Source: W3C Recommendation, Portable Network Graphics (Third Edition).</summary>
internal static class HandMadePng
{
    internal static byte[] File(uint width, uint height, byte bits, byte colourType, byte[] filteredRows, byte[]? plte = null)
    {
        byte[] header = new byte[13];
        BinaryPrimitives.WriteUInt32BigEndian(header, width);
        BinaryPrimitives.WriteUInt32BigEndian(header.AsSpan(4), height);
        header[8] = bits;
        header[9] = colourType;
        using var data = new MemoryStream();
        using (var deflate = new ZLibStream(data, CompressionLevel.Fastest, leaveOpen: true))
            deflate.Write(filteredRows);
        byte[] palette = plte is null ? [] : Chunk("PLTE", plte);
        return [0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, .. Chunk("IHDR", header), .. palette, .. Chunk("IDAT", data.ToArray()), .. Chunk("IEND", [])];
    }

    private static byte[] Chunk(string type, byte[] content)
    {
        byte[] chunk = new byte[content.Length + 12];
        BinaryPrimitives.WriteInt32BigEndian(chunk, content.Length);
        Encoding.ASCII.GetBytes(type, chunk.AsSpan(4));
        content.CopyTo(chunk, 8);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + content.Length), Crc(chunk.AsSpan(4, content.Length + 4)));
        return chunk;
    }

    // Bit by bit, unlike the table of the program.
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte value in bytes)
        {
            crc ^= value;
            for (int bit = 0; bit < 8; bit++)
                crc = (crc & 1) != 0 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
        }

        return ~crc;
    }
}
