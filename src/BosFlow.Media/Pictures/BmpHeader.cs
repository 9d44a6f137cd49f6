using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Reads the header of a BMP file (BITMAPFILEHEADER, then BITMAPCOREHEADER or BITMAPINFOHEADER and its successors).</summary>
internal static class BmpHeader
{
    private const int CoreHeaderBytes = 12;
    private const int InfoHeaderBytes = 40;
    private const uint BitFields = 3;

    internal static ReadOnlySpan<byte> Signature => "BM"u8;

    internal static PictureHeader Read(HeaderBytes bytes)
    {
        uint headerBytes = BinaryPrimitives.ReadUInt32LittleEndian(bytes.At(14, 4));
        if (headerBytes != CoreHeaderBytes && headerBytes is < InfoHeaderBytes or > 256)
            throw bytes.Damaged("its BMP header has an impossible length");
        bool core = headerBytes == CoreHeaderBytes;
        ReadOnlySpan<byte> info = bytes.At(18, core ? 8 : 16);
        long width = core ? BinaryPrimitives.ReadUInt16LittleEndian(info) : BinaryPrimitives.ReadInt32LittleEndian(info);
        // A negative height means rows from the top down.
        long height = core ? BinaryPrimitives.ReadUInt16LittleEndian(info[2..]) : Math.Abs((long)BinaryPrimitives.ReadInt32LittleEndian(info[4..]));
        int bits = BinaryPrimitives.ReadUInt16LittleEndian(info[(core ? 6 : 10)..]);
        uint compression = core ? 0 : BinaryPrimitives.ReadUInt32LittleEndian(info[12..]);
        PictureLimits.Check(width, height, bytes.Name);
        if (bits is not (1 or 4 or 8 or 24 or 32) || (compression != 0 && !(compression == BitFields && bits == 32)))
            throw bytes.Unsupported(FormattableString.Invariant($"is a BMP of a rare kind ({bits} bits a pixel, compression {compression})"));
        return new PictureHeader(PictureFormat.Bmp, (int)width, (int)height, bits <= 8 ? bits : 8, false, bits <= 8 ? 1 : bits / 8, Orientation.Upright);
    }

    /// <summary>Why the file is not whole, as the end of a sentence; null where it is.</summary>
    internal static string? Problem(ReadOnlySpan<byte> file, PictureHeader header)
    {
        long first = BinaryPrimitives.ReadUInt32LittleEndian(file[10..]);
        // Rows are padded to four bytes.
        long rowBytes = (((long)header.StoredWidth * header.BitsPerSample * header.Samples) + 31) / 32 * 4;
        long wanted = first + (rowBytes * header.StoredHeight);
        return file.Length < wanted
            ? FormattableString.Invariant($"is truncated: the BMP file has {file.Length} of its {wanted} bytes")
            : null;
    }
}
