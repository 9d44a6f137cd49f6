using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Reads the header of a PNG file. Source: W3C Recommendation, Portable Network Graphics (Third Edition), sections 5 and 11.</summary>
internal static class PngHeader
{
    private const int FirstChunk = 8;
    private const int ChunkFrame = 12;
    private const int MostChunksBeforeData = 1000;

    internal static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    internal static PictureHeader Read(HeaderBytes bytes)
    {
        ReadOnlySpan<byte> start = bytes.At(FirstChunk, 8 + 13);
        if (BinaryPrimitives.ReadUInt32BigEndian(start) != 13 || !start.Slice(4, 4).SequenceEqual("IHDR"u8))
            throw bytes.Damaged("its PNG header chunk is missing");
        long width = BinaryPrimitives.ReadUInt32BigEndian(start[8..]);
        long height = BinaryPrimitives.ReadUInt32BigEndian(start[12..]);
        int bits = start[16];
        int colour = start[17];
        int samples = Samples(colour);
        if (samples == 0 || !IsAllowed(colour, bits) || start[18] != 0 || start[19] != 0 || start[20] > 1)
            throw bytes.Damaged(FormattableString.Invariant($"its PNG header names {bits} bits of colour type {colour}, which do not exist"));
        PictureLimits.Check(width, height, bytes.Name);
        return new PictureHeader(PictureFormat.Png, (int)width, (int)height, bits, false, samples, Orientation(bytes));
    }

    /// <summary>Samples a pixel of a colour type; a palette counts as three. 0 where the type does not exist.</summary>
    private static int Samples(int colourType) => colourType switch { 0 => 1, 2 => 3, 3 => 3, 4 => 2, 6 => 4, _ => 0 };

    private static bool IsAllowed(int colourType, int bits) => colourType switch
    {
        0 => bits is 1 or 2 or 4 or 8 or 16,
        3 => bits is 1 or 2 or 4 or 8,
        _ => bits is 8 or 16,
    };

    // The eXIf chunk, where it stands before the picture data.
    private static Orientation Orientation(HeaderBytes bytes)
    {
        long offset = FirstChunk + ChunkFrame + 13;
        for (int chunk = 0; chunk < MostChunksBeforeData && offset + 8 <= bytes.Length; chunk++)
        {
            ReadOnlySpan<byte> head = bytes.At(offset, 8);
            uint length = BinaryPrimitives.ReadUInt32BigEndian(head);
            if (head[4..].SequenceEqual("IDAT"u8))
                break;
            if (head[4..].SequenceEqual("eXIf"u8) && length < ExifOrientation.MaxBytes && offset + 8 + length <= bytes.Length)
                return ExifOrientation.Read(bytes.At(offset + 8, (int)length));
            offset += ChunkFrame + length;
        }

        return Media.Orientation.Upright;
    }
}
