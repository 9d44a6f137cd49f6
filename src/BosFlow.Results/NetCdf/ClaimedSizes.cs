using System.Buffers.Binary;

namespace BosFlow.Results.NetCdf;

/// <summary>
/// Looks at the sizes that an HDF5 file claims for its attributes and texts, before the library takes memory for them. Source: HDF5 File Format
/// Specification Version 3.0, sections IV.A.2.b (dataspace), IV.A.2.d (datatype), IV.A.2.m (attribute) and III.E (global heap).
/// </summary>
internal static class ClaimedSizes
{
    private const int AttributeVersion = 3;
    private const int AttributeHead = 9;
    private const int DataspaceVersion = 2;
    private const int DataspaceHead = 4;
    private const int DatatypeHead = 8;
    private const int HeapHead = 16;

    // The signature and the version of a global heap.
    private static ReadOnlySpan<byte> Heap => "GCOL\u0001"u8;

    /// <summary>Refuses a file that claims more for one of them than there is room for.</summary>
    /// <param name="file">The whole file.</param>
    /// <param name="headers">Its object headers, whose checksums hold.</param>
    /// <exception cref="InvalidDataException">A claim is too large, or an attribute is of a kind that this program does not write.</exception>
    public static void Check(ReadOnlySpan<byte> file, IEnumerable<HeaderBlock> headers)
    {
        foreach (HeaderBlock block in headers)
        {
            foreach ((int type, int start, int length) in block.Messages(file))
            {
                if (type == ObjectHeaders.AttributeMessage)
                    CheckAttribute(file.Slice(start, length));
            }
        }

        // Every heap there is, whether a text refers to it or not.
        ReadOnlySpan<byte> rest = file;
        for (int at = rest.IndexOf(Heap); at >= 0; at = rest.IndexOf(Heap))
        {
            CheckHeap(rest[at..]);
            rest = rest[(at + Heap.Length)..];
        }
    }

    // Version, flags, lengths of name, datatype and dataspace, encoding of the name; then the three, then the values.
    private static void CheckAttribute(ReadOnlySpan<byte> message)
    {
        if (message.Length < AttributeHead || message[0] != AttributeVersion)
            throw new InvalidDataException("It holds an attribute of a kind this program does not write.");
        int datatype = AttributeHead + BinaryPrimitives.ReadUInt16LittleEndian(message[2..]);
        int dataspace = datatype + BinaryPrimitives.ReadUInt16LittleEndian(message[4..]);
        int values = dataspace + BinaryPrimitives.ReadUInt16LittleEndian(message[6..]);
        if (values > message.Length || dataspace - datatype < DatatypeHead || values - dataspace < DataspaceHead)
            throw new InvalidDataException("It holds an attribute that is longer than its message.");
        ulong bytes = BinaryPrimitives.ReadUInt32LittleEndian(message[(datatype + 4)..]);
        ulong count = Count(message[dataspace..values]);
        if (bytes > 0 && count > (ulong)(message.Length - values) / bytes)
            throw new InvalidDataException("It holds an attribute that claims more values than there are.");
    }

    // Version, rank, flags, type; then the length of each dimension.
    private static ulong Count(ReadOnlySpan<byte> dataspace)
    {
        int rank = dataspace[1];
        if (dataspace[0] != DataspaceVersion || dataspace.Length < DataspaceHead + (8 * rank))
            throw new InvalidDataException("It holds an attribute whose dimensions are of a kind this program does not write.");
        ulong count = 1;
        for (int i = 0; i < rank; i++)
        {
            ulong length = BinaryPrimitives.ReadUInt64LittleEndian(dataspace[(DataspaceHead + (8 * i))..]);
            count = length <= ushort.MaxValue && count <= ushort.MaxValue ? count * length : throw new InvalidDataException("It holds an attribute that claims more values than a header can hold.");
        }

        return count;
    }

    // The heap's length stands behind its version; each text has an index, a count of references and a length, and is padded to 8 bytes. Index 0 is free room.
    private static void CheckHeap(ReadOnlySpan<byte> rest)
    {
        ulong length = rest.Length >= HeapHead ? BinaryPrimitives.ReadUInt64LittleEndian(rest[8..]) : ulong.MaxValue;
        if (length > (ulong)rest.Length)
            throw new InvalidDataException("It claims more texts than the file can hold.");
        ReadOnlySpan<byte> texts = length > HeapHead ? rest[HeapHead..(int)length] : [];
        while (texts.Length >= HeapHead && BinaryPrimitives.ReadUInt16LittleEndian(texts) != 0)
        {
            ulong claimed = BinaryPrimitives.ReadUInt64LittleEndian(texts[8..]);
            texts = texts[HeapHead..];
            if (claimed > (ulong)texts.Length)
                throw new InvalidDataException("It holds a text that claims to be longer than its heap.");
            texts = texts[(int)Math.Min(((claimed + 7) / 8) * 8, (ulong)texts.Length)..];
        }
    }
}
