namespace BosFlow.Media.Tests;

/// <summary>TIFF files put together byte by byte: one uncompressed strip. Source: TIFF Revision 6.0, Adobe, 1992, sections 2 and 3.</summary>
internal static class HandMadeTiff
{
    internal static byte[] File(uint width, uint height, ushort bits, ushort sampleFormat, ushort samples, byte[] pixels, ushort orientation = 1)
    {
        (ushort Tag, ushort Type, uint Value)[] entries =
        [
            (256, 4, width), (257, 4, height), (258, 3, bits), (259, 3, 1), (262, 3, 1), (273, 4, 8), (274, 3, orientation),
            (277, 3, samples), (278, 4, height), (279, 4, (uint)pixels.Length), (339, 3, sampleFormat),
        ];
        using var file = new MemoryStream();
        using var writer = new BinaryWriter(file);
        writer.Write("II*\0"u8);
        writer.Write((uint)(8 + pixels.Length));
        writer.Write(pixels);
        writer.Write((ushort)entries.Length);
        foreach ((ushort tag, ushort type, uint value) in entries)
        {
            writer.Write(tag);
            writer.Write(type);
            writer.Write(1u);
            writer.Write(value);
        }

        writer.Write(0u);
        writer.Flush();
        return file.ToArray();
    }
}
