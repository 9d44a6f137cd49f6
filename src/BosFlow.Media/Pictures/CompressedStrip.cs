using System.IO.Compression;

namespace BosFlow.Media.Pictures;

/// <summary>
/// How many bytes a compressed strip or tile of a TIFF file unpacks to. OpenCV fills a strip that breaks off and says
/// nothing, so it is counted beforehand. Source: TIFF Revision 6.0, Adobe, 1992, sections 9 (PackBits) and 13 (LZW).
/// </summary>
internal static class CompressedStrip
{
    private const int Lzw = 5;
    private const int Deflate = 8;
    private const int OldDeflate = 32946;
    private const int PackBits = 32773;

    /// <summary>Unpacked bytes up to the wanted number; null where the compression is not one that is counted.</summary>
    /// <param name="strip">The compressed bytes.</param>
    /// <param name="compression">TIFF's number of the compression.</param>
    /// <param name="wanted">Where counting may stop.</param>
    internal static long? UnpackedBytes(byte[] strip, long compression, long wanted) => compression switch
    {
        Lzw when IsOldStyleLzw(strip) => null,
        Lzw => LzwBytes(strip, wanted),
        Deflate or OldDeflate => DeflateBytes(strip, wanted),
        PackBits => PackBitsBytes(strip),
        _ => null,
    };

    // Before TIFF 6 some writers packed the bits from the other end; the first code, 256 "clear", then shows as 0, 1.
    private static bool IsOldStyleLzw(byte[] strip) => strip.Length >= 2 && strip[0] == 0 && (strip[1] & 1) == 1;

    private static long DeflateBytes(byte[] strip, long wanted)
    {
        byte[] buffer = new byte[65536];
        long count = 0;
        try
        {
            using var stream = new ZLibStream(new MemoryStream(strip, writable: false), CompressionMode.Decompress);
            // One byte more than wanted is asked for, since the checksum is looked at only at the end.
            for (int read = 1; read > 0 && count <= wanted; count += read)
                read = stream.Read(buffer);
        }
        catch (InvalidDataException)
        {
            return -1;
        }

        return count;
    }

    private static long PackBitsBytes(byte[] strip)
    {
        long count = 0;
        for (int at = 0; at < strip.Length;)
        {
            sbyte head = (sbyte)strip[at];
            int copied = head >= 0 ? Math.Min(head + 1, strip.Length - at - 1) : 0;
            count += head >= 0 ? copied : head == -128 || at + 1 >= strip.Length ? 0 : 1 - head;
            at += head >= 0 ? copied + 1 : head == -128 ? 1 : 2;
        }

        return count;
    }

    // Only the lengths of the table's entries matter for the count: an entry is its predecessor and one byte more.
    private static long LzwBytes(byte[] strip, long wanted)
    {
        const int clear = 256;
        const int end = 257;
        int[] lengths = new int[4097];
        Array.Fill(lengths, 1, 0, clear);
        (int next, int width, int previous) = (end + 1, 9, -1);
        long count = 0;
        long bit = 0;
        for (; bit + width <= 8L * strip.Length && count < wanted; )
        {
            int code = Code(strip, bit, width);
            bit += width;
            if (code == end)
                break;
            if (code == clear)
            {
                (next, width, previous) = (end + 1, 9, -1);
                continue;
            }

            if (code > next || (code >= next && previous < 0))
                return -1;
            if (previous >= 0 && next < lengths.Length)
                lengths[next++] = lengths[previous] + 1;
            count += lengths[code];
            previous = code;
            // The width grows one entry early.
            width = next >= 2047 ? 12 : next >= 1023 ? 11 : next >= 511 ? 10 : 9;
        }

        return count;
    }

    // Most significant bit first; a code of up to 12 bits touches three bytes at most.
    private static int Code(byte[] strip, long bit, int width)
    {
        int at = (int)(bit / 8);
        int three = (strip[at] << 16) | ((at + 1 < strip.Length ? strip[at + 1] : 0) << 8) | (at + 2 < strip.Length ? strip[at + 2] : 0);
        return (three >> (24 - width - (int)(bit % 8))) & ((1 << width) - 1);
    }
}
