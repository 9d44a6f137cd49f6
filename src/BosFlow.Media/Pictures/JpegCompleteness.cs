using System.Buffers.Binary;

namespace BosFlow.Media.Pictures;

/// <summary>Whether a JPEG file is whole: its scans run up to the end-of-image marker.</summary>
/// <remarks>
/// The markers are walked, since a preview inside the Exif block has an end marker of its own. Bits damaged inside a
/// scan cannot be noticed this way: JPEG has no checksum.
/// </remarks>
internal static class JpegCompleteness
{
    /// <summary>Why the file is not whole, as the end of a sentence; null where it is.</summary>
    internal static string? Problem(ReadOnlySpan<byte> file, PictureHeader header)
    {
        int offset = 2;
        long scanBytes = 0;
        while (offset + 1 < file.Length)
        {
            // Outside a scan every byte here is a marker; inside, a marker is 0xFF not followed by 0 or a restart.
            int next = file[offset..].IndexOf((byte)0xFF);
            if (next < 0 || offset + next + 1 >= file.Length)
                break;
            scanBytes += next;
            offset += next;
            byte marker = file[offset + 1];
            if (marker == 0xD9)
                return TooLittle(scanBytes, header);
            if (marker == 0xFF)
                offset++;
            else if (marker is 0 or (>= 0xD0 and <= 0xD7) or 1)
                offset += 2;
            else if (offset + 4 > file.Length)
                break;
            else
                offset += 2 + Math.Max((int)BinaryPrimitives.ReadUInt16BigEndian(file[(offset + 2)..]), 2);
        }

        return FormattableString.Invariant($"is truncated: the JPEG file ends after {file.Length} bytes, before its end marker");
    }

    // Every block of 8 x 8 px takes at least one bit for its mean.
    private static string? TooLittle(long scanBytes, PictureHeader header)
    {
        long blocks = ((header.StoredWidth + 7L) / 8) * ((header.StoredHeight + 7L) / 8);
        return scanBytes * 8 < blocks
            ? FormattableString.Invariant($"is damaged: its {scanBytes} bytes of data cannot hold {header.StoredWidth} x {header.StoredHeight} px")
            : null;
    }
}
