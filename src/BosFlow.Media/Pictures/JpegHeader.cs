using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Reads the header of a JPEG file. Source: ITU-T T.81 (1992), annex B; Exif 2.32, CIPA DC-008, 2019, section 4.5.4.</summary>
internal static class JpegHeader
{
    private const int MostSegments = 4096;
    private const byte StartOfScan = 0xDA;
    private const byte EndOfImage = 0xD9;
    private const byte Exif = 0xE1;

    internal static ReadOnlySpan<byte> Signature => [0xFF, 0xD8, 0xFF];

    internal static PictureHeader Read(HeaderBytes bytes)
    {
        long offset = 2;
        Orientation orientation = Orientation.Upright;
        for (int segment = 0; segment < MostSegments; segment++)
        {
            ReadOnlySpan<byte> head = bytes.At(offset, 2);
            if (head[0] != 0xFF)
                throw bytes.Damaged(FormattableString.Invariant($"there is no JPEG marker at byte {offset}"));
            byte marker = head[1];
            if (marker == 0xFF)
            {
                offset++;
                continue;
            }

            if (marker is StartOfScan or EndOfImage)
                throw bytes.Damaged("its JPEG data begin without a frame header");
            int length = BinaryPrimitives.ReadUInt16BigEndian(bytes.At(offset + 2, 2));
            if (length < 2)
                throw bytes.Damaged(FormattableString.Invariant($"the JPEG segment at byte {offset} has no length"));
            if (IsFrame(marker))
                return Frame(bytes, offset + 4, length - 2, marker, orientation);
            if (marker == Exif && length > 8 && bytes.At(offset + 4, 6).SequenceEqual("Exif\0\0"u8))
                orientation = ExifOrientation.Read(bytes.At(offset + 10, length - 8));
            offset += 2 + length;
        }

        throw bytes.Damaged("no JPEG frame header was found");
    }

    // C4, C8 and CC are tables; the rest of C0 to CF are frame headers.
    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);

    private static PictureHeader Frame(HeaderBytes bytes, long offset, int length, byte marker, Orientation orientation)
    {
        if (length < 6)
            throw bytes.Damaged("its JPEG frame header is too short");
        ReadOnlySpan<byte> frame = bytes.At(offset, 6);
        int precision = frame[0];
        int height = BinaryPrimitives.ReadUInt16BigEndian(frame[1..]);
        int width = BinaryPrimitives.ReadUInt16BigEndian(frame[3..]);
        int components = frame[5];
        PictureLimits.Check(width, height, bytes.Name);
        if (marker > 0xC2 || precision != 8)
            throw bytes.Unsupported(FormattableString.Invariant($"is a JPEG of a rare kind (process {marker - 0xC0}, {precision} bits)"));
        if (components is not (1 or 3))
            throw bytes.Unsupported(FormattableString.Invariant($"is a JPEG with {components} colour components, where 1 or 3 are read"));
        return new PictureHeader(PictureFormat.Jpeg, width, height, precision, false, components, orientation);
    }
}
