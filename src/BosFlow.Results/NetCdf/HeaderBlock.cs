using System.Buffers.Binary;

namespace BosFlow.Results.NetCdf;

/// <summary>One checksummed block of messages of an HDF5 object header (version 2): where it lies in the file.</summary>
/// <param name="Start">First byte of the block, its signature.</param>
/// <param name="FirstMessage">First byte of its first message.</param>
/// <param name="End">First byte after the messages: the checksum over everything from <paramref name="Start"/>.</param>
/// <param name="MessagePrefix">Bytes before each message's data: 4, or 6 where the order of creation is tracked.</param>
internal readonly record struct HeaderBlock(int Start, int FirstMessage, int End, int MessagePrefix)
{
    public bool ChecksumHolds(ReadOnlySpan<byte> file) =>
        BinaryPrimitives.ReadUInt32LittleEndian(file[End..]) == Lookup3.Of(file[Start..End]);

    public void WriteChecksum(Span<byte> file) =>
        BinaryPrimitives.WriteUInt32LittleEndian(file[End..], Lookup3.Of(file[Start..End]));

    /// <summary>The messages of the block: type, first byte and length of the data.</summary>
    public List<(int Type, int Start, int Length)> Messages(ReadOnlySpan<byte> file)
    {
        List<(int, int, int)> messages = [];
        for (int at = FirstMessage; at + MessagePrefix <= End;)
        {
            int length = BinaryPrimitives.ReadUInt16LittleEndian(file[(at + 1)..]);
            int start = at + MessagePrefix;
            if (start + length > End)
                throw new InvalidDataException("A header message is longer than its block.");
            messages.Add((file[at], start, length));
            at = start + length;
        }

        return messages;
    }
}
