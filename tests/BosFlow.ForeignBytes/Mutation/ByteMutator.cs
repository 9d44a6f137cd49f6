using System.Buffers.Binary;

namespace BosFlow.ForeignBytes.Mutation;

/// <summary>Changes bytes as damage and malice do.</summary>
internal static class ByteMutator
{
    private static readonly ulong[] Extremes = [0, 1, 0x7F, 0x80, 0xFF, 0x7FFF, 0x8000, 0xFFFF, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFF, 60000, 0x7FFFFFFFFFFFFFFF, ulong.MaxValue];

    /// <summary>One random change; the result may be of another length.</summary>
    public static byte[] Change(byte[] bytes, Random random) => bytes.Length == 0 ? [0] : random.Next(9) switch
    {
        0 => FlipBits(bytes, random),
        1 => bytes[..random.Next(bytes.Length)],
        2 => Splice(bytes, random),
        3 => Repeat(bytes, random),
        4 => WriteExtreme(bytes, random, bytes.Length),
        // Lengths and sizes stand in headers, and those stand in front.
        5 => WriteExtreme(bytes, random, Math.Min(bytes.Length, 256)),
        6 => Fill(bytes, random),
        7 => Remove(bytes, random),
        _ => FlipBits(bytes, random),
    };

    private static byte[] FlipBits(byte[] bytes, Random random)
    {
        byte[] changed = [.. bytes];
        for (int flips = 1 << random.Next(6); flips > 0; flips--)
            changed[random.Next(changed.Length)] ^= (byte)(1 << random.Next(8));
        return changed;
    }

    private static byte[] Splice(byte[] bytes, Random random)
    {
        byte[] changed = [.. bytes];
        int length = random.Next(1, Math.Max(2, bytes.Length / 4));
        int from = random.Next(bytes.Length - Math.Min(length, bytes.Length - 1));
        int to = random.Next(bytes.Length);
        bytes.AsSpan(from, Math.Min(length, Math.Min(bytes.Length - from, bytes.Length - to))).CopyTo(changed.AsSpan(to));
        return changed;
    }

    private static byte[] Repeat(byte[] bytes, Random random)
    {
        (int from, int to) = Range(bytes, random);
        return [.. bytes[..to], .. Enumerable.Repeat(bytes[from..to], random.Next(1, 20)).SelectMany(part => part), .. bytes[to..]];
    }

    private static byte[] WriteExtreme(byte[] bytes, Random random, int within)
    {
        byte[] changed = [.. bytes];
        Span<byte> number = stackalloc byte[8];
        ulong value = Extremes[random.Next(Extremes.Length)];
        int width = 1 << random.Next(4);
        bool isLittle = random.Next(2) == 0;
        if (isLittle)
            BinaryPrimitives.WriteUInt64LittleEndian(number, value);
        else
            BinaryPrimitives.WriteUInt64BigEndian(number, value);
        number = isLittle ? number[..width] : number[^width..];
        int at = random.Next(within);
        number[..Math.Min(width, bytes.Length - at)].CopyTo(changed.AsSpan(at));
        return changed;
    }

    private static byte[] Fill(byte[] bytes, Random random)
    {
        (int from, int to) = Range(bytes, random);
        byte[] changed = [.. bytes];
        changed.AsSpan(from, to - from).Fill((byte)(random.Next(2) * 0xFF));
        return changed;
    }

    private static byte[] Remove(byte[] bytes, Random random)
    {
        (int from, int to) = Range(bytes, random);
        return [.. bytes[..from], .. bytes[to..]];
    }

    private static (int From, int To) Range(byte[] bytes, Random random)
    {
        int from = random.Next(bytes.Length);
        return (from, random.Next(from, Math.Min(bytes.Length, from + 4096)) + 1);
    }
}
