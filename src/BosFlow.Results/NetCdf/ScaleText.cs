using System.Buffers.Binary;
using System.Text;
using PureHDF;

namespace BosFlow.Results.NetCdf;

/// <summary>
/// Text of fixed length for the attributes CLASS and NAME of dimension scales. The HDF5 library takes a data set for a
/// scale only if its CLASS is a null-terminated string of fixed length 16; otherwise readers see nameless dimensions.
/// </summary>
/// <remarks>
/// PureHDF has one length for all strings of a file and cuts longer ones without a word, so its strings stay of variable
/// length and these two are written as opaque bytes. <see cref="Declare"/> then turns the type of exactly these
/// attributes from "opaque" to "string, null-terminated, ASCII" and renews the header's checksum.
/// Source: HDF5 File Format Specification Version 3.0, section IV.A.2.d (datatype message, classes 3 and 5),
/// IV.A.2.m (attribute message version 3); HDF5 Dimension Scale Specification, section 2 (CLASS, NAME).
/// </remarks>
internal static class ScaleText
{
    private const int NameStart = 9;
    private const int TypeLength = 8;
    private const int TagLength = 8;
    private const byte OpaqueClass = 5;
    private const byte StringClass = 3;

    /// <summary>The text with its terminating zero, as the attribute that <see cref="Declare"/> will turn into a string.</summary>
    /// <param name="text">ASCII.</param>
    public static H5Attribute Attribute(string text)
    {
        byte[] bytes = new byte[Encoding.ASCII.GetByteCount(text) + 1];
        Encoding.ASCII.GetBytes(text, bytes);
        return new H5Attribute(bytes, [], new H5OpaqueInfo((uint)bytes.Length, string.Empty));
    }

    /// <summary>Declares every opaque attribute named CLASS or NAME in a finished file to be a string.</summary>
    /// <param name="file">All bytes of the file; changed in place.</param>
    /// <returns>Number of attributes declared.</returns>
    public static int Declare(Span<byte> file)
    {
        int declared = 0;
        foreach (HeaderBlock block in ObjectHeaders.Walk(file))
        {
            int before = declared;
            foreach ((int type, int start, int length) in block.Messages(file))
            {
                if (type == ObjectHeaders.AttributeMessage && DeclareOne(file.Slice(start - block.MessagePrefix, length + block.MessagePrefix), block.MessagePrefix))
                    declared++;
            }

            if (declared != before)
                block.WriteChecksum(file);
        }

        return declared;
    }

    // An opaque type carries an (empty) tag of 8 bytes behind its 8 bytes of type, a string does not: what follows moves
    // up, and the room that is left becomes a message of type "nil".
    private static bool DeclareOne(Span<byte> message, int prefix)
    {
        Span<byte> attribute = message[prefix..];
        int nameLength = BinaryPrimitives.ReadUInt16LittleEndian(attribute[2..]);
        if (attribute[0] != 3 || (!attribute[NameStart..].StartsWith("CLASS\0"u8) && !attribute[NameStart..].StartsWith("NAME\0"u8)))
            return false;
        Span<byte> type = attribute[(NameStart + nameLength)..];
        if ((type[0] & 0x0f) != OpaqueClass || type[1] != TagLength)
            return false;
        type[0] = (byte)((type[0] & 0xf0) | StringClass);
        type[1..4].Clear();
        type[(TypeLength + TagLength)..].CopyTo(type[TypeLength..]);
        BinaryPrimitives.WriteUInt16LittleEndian(attribute[4..], TypeLength);
        BinaryPrimitives.WriteUInt16LittleEndian(message[1..], (ushort)(attribute.Length - TagLength));
        Span<byte> room = message[^TagLength..];
        room.Clear();
        BinaryPrimitives.WriteUInt16LittleEndian(room[1..], (ushort)(TagLength - prefix));
        return true;
    }
}
