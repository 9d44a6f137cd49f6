namespace BosFlow.Media.Pictures;

/// <summary>Whether a TIFF file is whole: its strips or tiles lie inside the file and unpack to the whole picture.</summary>
internal static class TiffCompleteness
{
    /// <summary>Why the file is not whole, as the end of a sentence; null where it is.</summary>
    /// <exception cref="InputDataException">The directory cannot be read.</exception>
    internal static string? Problem(HeaderBytes bytes, PictureHeader header)
    {
        TiffDirectory page = TiffHeader.OnlyPage(bytes);
        bool tiled = page.Has(TiffTags.TileOffsets);
        long[] offsets = page.Numbers(tiled ? TiffTags.TileOffsets : TiffTags.StripOffsets);
        long[] counts = page.Numbers(tiled ? TiffTags.TileByteCounts : TiffTags.StripByteCounts);
        long pixelBytes = (long)header.StoredWidth * header.StoredHeight * header.BitsPerSample * header.Samples / 8;
        bool compressed = page.Number(TiffTags.Compression, 1) != 1;
        // Old writers leave the counts out of an uncompressed file of one strip.
        if (counts.Length == 0 && !compressed && offsets.Length == 1)
            counts = [pixelBytes];
        if (offsets.Length == 0 || offsets.Length != counts.Length)
            return "is damaged: its TIFF directory does not say where the pixels are";

        for (int part = 0; part < offsets.Length; part++)
        {
            if (offsets[part] < 0 || counts[part] < 0 || offsets[part] > bytes.Length - counts[part])
                return FormattableString.Invariant($"is truncated: the TIFF file ends after {bytes.Length} bytes, inside its pixel data (part {part + 1} of {offsets.Length})");
        }

        // LZW turns a code of 12 bits into at most 3838 bytes, deflate grows less: more than 4096 is impossible.
        long capacity = counts.Sum() * (compressed ? 4096 : 1);
        TiffParts parts = TiffParts.Of(page, header, tiled);
        if (capacity < pixelBytes || offsets.Length < parts.Count)
            return FormattableString.Invariant($"is damaged: its pixel data cannot hold {header.StoredWidth} x {header.StoredHeight} px");
        return compressed ? UnpackingProblem(bytes, page.Number(TiffTags.Compression, 1), offsets, counts, parts) : null;
    }

    private static string? UnpackingProblem(HeaderBytes bytes, long compression, long[] offsets, long[] counts, TiffParts parts)
    {
        for (int part = 0; part < parts.Count; part++)
        {
            long wanted = parts.Bytes(part);
            long? unpacked = CompressedStrip.UnpackedBytes(bytes.At(offsets[part], (int)counts[part]).ToArray(), compression, wanted);
            if (unpacked < wanted)
                return FormattableString.Invariant($"is damaged: part {part + 1} of its {parts.Count} parts of pixel data does not unpack");
        }

        return null;
    }
}
