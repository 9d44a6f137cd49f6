namespace BosFlow.Media.Pictures;

/// <summary>Reads the header of a TIFF or BigTIFF file. Source: TIFF Revision 6.0, Adobe, 1992.</summary>
internal static class TiffHeader
{
    private const int MostPages = 65536;

    internal static bool IsSignature(ReadOnlySpan<byte> start) =>
        start.Length >= 4 && (start[..4].SequenceEqual("II*\0"u8) || start[..4].SequenceEqual("MM\0*"u8)
            || start[..4].SequenceEqual("II+\0"u8) || start[..4].SequenceEqual("MM\0+"u8));

    internal static PictureHeader Read(HeaderBytes bytes)
    {
        TiffDirectory page = OnlyPage(bytes);
        long width = page.Number(TiffTags.ImageWidth, 0);
        long height = page.Number(TiffTags.ImageLength, 0);
        PictureLimits.Check(width, height, bytes.Name);
        long[] bits = page.Has(TiffTags.BitsPerSample) ? page.Numbers(TiffTags.BitsPerSample) : [1];
        long samples = page.Number(TiffTags.SamplesPerPixel, 1);
        long format = page.Number(TiffTags.SampleFormat, 1);
        CheckKind(bytes, page, bits, samples, format);
        return new PictureHeader(PictureFormat.Tiff, (int)width, (int)height, (int)bits[0], format == 3, (int)samples, Orientation.Upright);
    }

    // Previews (reduced resolution) may accompany the picture; two full pictures in one file would be a silent choice.
    internal static TiffDirectory OnlyPage(HeaderBytes bytes)
    {
        ReadOnlySpan<byte> start = bytes.At(0, 8);
        bool little = start[0] == (byte)'I';
        var layout = new TiffLayout(little, start[little ? 2 : 3] == (byte)'+');
        long offset = layout.IsBig ? (long)layout.Number(bytes.At(8, 8), 8) : (long)layout.Number(start[4..], 4);
        var seen = new HashSet<long>();
        TiffDirectory? full = null;
        while (offset != 0 && seen.Count < MostPages)
        {
            if (!seen.Add(offset))
                throw bytes.Damaged("its TIFF directories run in a circle");
            TiffDirectory page = TiffDirectory.Read(bytes, layout, offset);
            if ((page.Number(TiffTags.NewSubfileType, 0) & 1) == 0)
            {
                if (full is not null)
                    throw new InputDataException($"{bytes.Name} holds several pages, where one frame a file is read: split it into one file a frame.");
                full = page;
            }

            offset = page.Next;
        }

        return full ?? throw bytes.Damaged("it holds no full picture");
    }

    private static void CheckKind(HeaderBytes bytes, TiffDirectory page, long[] bits, long samples, long format)
    {
        bool sameBits = bits.All(value => value == bits[0]);
        bool known = (format, bits[0]) is (1, 8) or (1, 16) or (3, 32) or (3, 64);
        if (!sameBits || !known || samples is < 1 or > 4)
            throw bytes.Unsupported(FormattableString.Invariant($"is a TIFF of {samples} samples of {string.Join('/', bits)} bits, sample format {format}, where 8 and 16 bits and floats of 32 and 64 bits are read"));
        long photometric = page.Number(TiffTags.Photometric, 1);
        bool readable = photometric switch { 1 => samples <= 2, 2 => samples >= 3, 3 => samples == 1 && bits[0] == 8, 6 => samples == 3, _ => false };
        if (!readable)
            throw bytes.Unsupported(FormattableString.Invariant($"is a TIFF with the colour interpretation {photometric} and {samples} samples, which is not read"));
        if (samples > 1 && page.Number(TiffTags.PlanarConfiguration, 1) != 1)
            throw bytes.Unsupported("is a TIFF whose colours lie in separate planes");
        // Viewers disagree about turning TIFF, so a turned one would have two right answers.
        if (page.Number(TiffTags.Orientation, 1) != 1)
            throw bytes.Unsupported(FormattableString.Invariant($"is a TIFF stored turned (orientation {page.Number(TiffTags.Orientation, 1)}), which programs show in different ways: turn it upright"));
    }
}
