using System.Runtime.InteropServices;
using BosFlow.Footage;

namespace BosFlow.Results.Maps;

/// <summary>
/// A baseline TIFF with one strip of 32-bit floats, little-endian. Source: TIFF Revision 6.0, sections 2 (structure),
/// 4 (grey pictures) and 19 (SampleFormat 3, IEEE floating point).
/// </summary>
internal static class FloatTiff
{
    private const ushort Short = 3;
    private const ushort Long = 4;
    private const uint HeaderLength = 8;

    public static void Write(Stream stream, GrayImage image)
    {
        uint dataLength = checked((uint)image.Pixels.Length * sizeof(float));
        (ushort Tag, ushort Type, uint Value)[] entries =
        [
            (256, Long, (uint)image.Width),
            (257, Long, (uint)image.Height),
            (258, Short, 32),
            (259, Short, 1),
            (262, Short, 1),
            (273, Long, HeaderLength),
            (277, Short, 1),
            (278, Long, (uint)image.Height),
            (279, Long, dataLength),
            (339, Short, 3),
        ];
        using var writer = new BinaryWriter(stream, System.Text.Encoding.UTF8, leaveOpen: true);
        writer.Write("II*\0"u8);
        writer.Write(checked(HeaderLength + dataLength));
        writer.Write(MemoryMarshal.AsBytes(image.Pixels));
        writer.Write((ushort)entries.Length);
        foreach ((ushort tag, ushort type, uint value) in entries)
        {
            writer.Write(tag);
            writer.Write(type);
            writer.Write(1u);
            writer.Write(value);
        }

        writer.Write(0u);
    }
}
