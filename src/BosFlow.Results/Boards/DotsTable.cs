using System.Buffers.Text;
using System.Security.Cryptography;
using BosFlow.Results.Files;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>The table of the dots: a line each, mm with four decimals, in the order drawn.</summary>
internal static class DotsTable
{
    /// <summary>Steps of 0.1 um in a millimetre: four decimals.</summary>
    public const int StepsPerMillimetre = 10_000;

    /// <summary>Longest line with its end, bytes.</summary>
    public const int LongestLine = 64;

    private const int BlockBytes = 1 << 16;

    public static ReadOnlySpan<byte> Header => "x_mm,y_mm,diameter_mm,tone\n"u8;

    public static ReadOnlySpan<byte> Dark => "dark"u8;

    public static ReadOnlySpan<byte> Light => "light"u8;

    /// <summary>Diameter as the table states it, steps of 0.1 um.</summary>
    public static long Steps(DotSize size) => (long)Math.Round(size.DiameterMetres * BoardMaker.StepsPerMetre);

    /// <summary>Writes the table and gives its SHA-256.</summary>
    public static string Write(string path, Board board)
    {
        string hash = string.Empty;
        AtomicFile.Write(path, stream => hash = WriteTo(stream, board));
        return hash;
    }

    private static string WriteTo(Stream stream, Board board)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] block = new byte[BlockBytes];
        Header.CopyTo(block);
        int filled = Header.Length;
        long[] diameters = [.. board.Settings.Sizes.Select(Steps)];
        foreach (PrintedDot dot in board.Dots)
        {
            filled += WriteLine(block.AsSpan(filled), dot, diameters[dot.Size]);
            if (filled <= BlockBytes - LongestLine)
                continue;
            Flush();
        }

        Flush();
        return Convert.ToHexStringLower(hash.GetHashAndReset());

        void Flush()
        {
            hash.AppendData(block, 0, filled);
            stream.Write(block, 0, filled);
            filled = 0;
        }
    }

    private static int WriteLine(Span<byte> line, PrintedDot dot, long diameter)
    {
        int length = WriteNumber(line, StepsOf(dot.X));
        line[length++] = (byte)',';
        length += WriteNumber(line[length..], StepsOf(dot.Y));
        line[length++] = (byte)',';
        length += WriteNumber(line[length..], diameter);
        line[length++] = (byte)',';
        ReadOnlySpan<byte> tone = dot.IsLight ? Light : Dark;
        tone.CopyTo(line[length..]);
        length += tone.Length;
        line[length++] = (byte)'\n';
        return length;
    }

    // By whole numbers: no rounding to think about, and several times as fast as formatting floating point.
    private static int WriteNumber(Span<byte> text, long steps)
    {
        Utf8Formatter.TryFormat(steps / StepsPerMillimetre, text, out int length);
        text[length++] = (byte)'.';
        Utf8Formatter.TryFormat(steps % StepsPerMillimetre, text[length..], out int decimals, new System.Buffers.StandardFormat('D', 4));
        return length + decimals;
    }

    private static long StepsOf(double metres)
    {
        double steps = Math.Round(metres * BoardMaker.StepsPerMetre);
        // A hundredth of a step is the rounding of the multiplication and more; anything else would be lost in the table.
        if (!(steps >= 0 && Math.Abs((metres * BoardMaker.StepsPerMetre) - steps) < 0.01))
            throw new ArgumentException(FormattableString.Invariant($"A dot at {metres} m does not lie on a step of 0.1 um from 0."));
        return (long)steps;
    }
}
