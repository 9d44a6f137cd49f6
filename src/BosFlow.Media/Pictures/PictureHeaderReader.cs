namespace BosFlow.Media.Pictures;

/// <summary>Recognises a picture by its first bytes, never by its name, and reads its header.</summary>
internal static class PictureHeaderReader
{
    /// <summary>The header of a picture.</summary>
    /// <param name="stream">The file; seekable.</param>
    /// <param name="name">How messages call the file.</param>
    /// <exception cref="InputDataException">The file is no PNG, TIFF, JPEG or BMP, or its header is damaged, absurd or of a kind that is not read.</exception>
    internal static PictureHeader Read(Stream stream, string name)
    {
        byte[] start = new byte[8];
        stream.Position = 0;
        ReadOnlySpan<byte> first = start.AsSpan(0, stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false));
        if (first.StartsWith(PngHeader.Signature))
            return PngHeader.Read(new HeaderBytes(stream, name, "PNG"));
        if (first.StartsWith(JpegHeader.Signature))
            return JpegHeader.Read(new HeaderBytes(stream, name, "JPEG"));
        if (TiffHeader.IsSignature(first))
            return TiffHeader.Read(new HeaderBytes(stream, name, "TIFF"));
        if (first.StartsWith(BmpHeader.Signature))
            return BmpHeader.Read(new HeaderBytes(stream, name, "BMP"));
        string looks = first.IndexOfAnyExceptInRange((byte)9, (byte)126) < 0 ? "it looks like text" : "its first bytes are those of no such file";
        throw new InputDataException($"{name} is no PNG, TIFF, JPEG or BMP picture, whatever its name says: {looks}; leave it out, or convert it to one of these.");
    }

    /// <summary>Why the file is not whole, as the end of a sentence; null where it is.</summary>
    internal static string? CompletenessProblem(byte[] file, PictureHeader header, string name) => header.Format switch
    {
        PictureFormat.Png => PngCompleteness.Problem(file, header),
        PictureFormat.Jpeg => JpegCompleteness.Problem(file, header),
        PictureFormat.Bmp => BmpHeader.Problem(file, header),
        _ => TiffCompleteness.Problem(new HeaderBytes(new MemoryStream(file, writable: false), name, "TIFF"), header),
    };
}
