using System.Buffers.Binary;
using BosFlow.Results.NetCdf;

namespace BosFlow.ForeignBytes.Mutation;

/// <summary>Puts the checksums of damaged files right, as somebody would who means harm.</summary>
internal static class Signing
{
    /// <summary>CRC-32 of every chunk of a PNG, as far as the chunks can be followed.</summary>
    public static void Png(byte[] good, byte[] changed)
    {
        for (long at = 8; at + 12 <= changed.Length;)
        {
            long length = BinaryPrimitives.ReadUInt32BigEndian(changed.AsSpan((int)at));
            if (at + 12 + length > changed.Length)
                return;
            Span<byte> covered = changed.AsSpan((int)at + 4, (int)length + 4);
            BinaryPrimitives.WriteUInt32BigEndian(changed.AsSpan((int)(at + 8 + length)), Crc(covered));
            at += 12 + length;
        }
    }

    /// <summary>Checksums of the object headers of an HDF5 file where the good file has them.</summary>
    public static void Hdf5(byte[] good, byte[] changed)
    {
        if (changed.Length < 48)
            return;
        BinaryPrimitives.WriteUInt32LittleEndian(changed.AsSpan(44), Lookup3.Of(changed.AsSpan(0, 44)));
        foreach (HeaderBlock block in ObjectHeaders.Walk(good))
        {
            if (block.End + 4 <= changed.Length)
                BinaryPrimitives.WriteUInt32LittleEndian(changed.AsSpan(block.End), Lookup3.Of(changed.AsSpan(block.Start, block.End - block.Start)));
        }
    }

    // Source: W3C PNG (Third Edition), annex D.
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
