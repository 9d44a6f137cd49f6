using System.Buffers.Binary;

namespace BosFlow.Results.NetCdf;

/// <summary>
/// Walks the object headers of an HDF5 file from its superblock: for the checks before a file is read, and for the one
/// correction after it is written. Source: HDF5 File Format Specification Version 3.0, sections II.A (superblock,
/// versions 2 and 3) and IV.A (object header version 2, link message, continuation message).
/// </summary>
internal static class ObjectHeaders
{
    public const int AttributeMessage = 0x0c;
    private const int LinkMessage = 0x06;
    private const int ContinuationMessage = 0x10;
    private const int SuperblockLength = 48;

    private static ReadOnlySpan<byte> Signature => [0x89, (byte)'H', (byte)'D', (byte)'F', 0x0d, 0x0a, 0x1a, 0x0a];

    /// <summary>All header blocks that can be reached, each with a checksum that holds.</summary>
    /// <exception cref="InvalidDataException">The file is cut short, damaged, or of a kind this program does not write.</exception>
    public static List<HeaderBlock> Walk(ReadOnlySpan<byte> file)
    {
        List<HeaderBlock> blocks = [];
        HashSet<long> seen = [];
        Stack<long> objects = new([RootAddress(file)]);
        while (objects.TryPop(out long address))
        {
            if (!seen.Add(address))
                continue;
            Queue<HeaderBlock> pending = new([FirstBlock(file, address)]);
            while (pending.TryDequeue(out HeaderBlock block))
            {
                if (!block.ChecksumHolds(file))
                    throw new InvalidDataException($"The checksum of the header at byte {block.Start} does not hold.");
                blocks.Add(block);
                foreach ((int type, int start, int length) in block.Messages(file))
                {
                    if (type == LinkMessage)
                        objects.Push(HardLinkTarget(file.Slice(start, length)));
                    else if (type == ContinuationMessage)
                        pending.Enqueue(Continuation(file, start, block.MessagePrefix));
                }
            }
        }

        return blocks;
    }

    private static long RootAddress(ReadOnlySpan<byte> file)
    {
        if (file.Length < SuperblockLength || !file.StartsWith(Signature))
            throw new InvalidDataException("It is not an HDF5 file.");
        if (file[8] is not (2 or 3) || file[9] != 8 || file[10] != 8)
            throw new InvalidDataException("Its superblock is of another kind.");
        if (BinaryPrimitives.ReadUInt32LittleEndian(file[44..]) != Lookup3.Of(file[..44]))
            throw new InvalidDataException("The checksum of the superblock does not hold.");
        if (BinaryPrimitives.ReadInt64LittleEndian(file[28..]) > file.Length)
            throw new InvalidDataException("The file is cut short.");
        return BinaryPrimitives.ReadInt64LittleEndian(file[36..]);
    }

    private static HeaderBlock FirstBlock(ReadOnlySpan<byte> file, long address)
    {
        int start = Within(file, address, 16);
        if (!file[start..].StartsWith("OHDR"u8) || file[start + 4] != 2)
            throw new InvalidDataException($"There is no object header of version 2 at byte {start}.");
        int flags = file[start + 5];
        int at = start + 6 + ((flags & 0x20) != 0 ? 16 : 0) + ((flags & 0x10) != 0 ? 4 : 0);
        int sizeWidth = 1 << (flags & 3);
        long size = LittleEndian(file.Slice(Within(file, at, sizeWidth), sizeWidth));
        at += sizeWidth;
        Within(file, at, size + 4);
        return new HeaderBlock(start, at, at + (int)size, (flags & 4) != 0 ? 6 : 4);
    }

    private static HeaderBlock Continuation(ReadOnlySpan<byte> file, int message, int prefix)
    {
        long address = LittleEndian(file.Slice(message, 8));
        long length = LittleEndian(file.Slice(message + 8, 8));
        int start = Within(file, address, Math.Max(length, 8));
        if (!file[start..].StartsWith("OCHK"u8))
            throw new InvalidDataException($"There is no header continuation at byte {start}.");
        return new HeaderBlock(start, start + 4, start + (int)length - 4, prefix);
    }

    private static long HardLinkTarget(ReadOnlySpan<byte> link)
    {
        int flags = link[1];
        if ((flags & 0x08) != 0 && link[2] != 0)
            throw new InvalidDataException("It holds a link that is not a hard link.");
        return LittleEndian(link[^8..]);
    }

    private static long LittleEndian(ReadOnlySpan<byte> bytes)
    {
        long value = 0;
        for (int i = bytes.Length - 1; i >= 0; i--)
            value = (value << 8) | bytes[i];
        return value;
    }

    private static int Within(ReadOnlySpan<byte> file, long start, long length) =>
        start >= 0 && length >= 0 && start <= file.Length - length
            ? (int)start
            : throw new InvalidDataException($"It refers to byte {start}, which lies outside the file.");
}
