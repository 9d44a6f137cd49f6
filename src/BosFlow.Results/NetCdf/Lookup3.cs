using System.Buffers.Binary;
using static System.Numerics.BitOperations;

namespace BosFlow.Results.NetCdf;

/// <summary>The checksum of HDF5 metadata: Bob Jenkins' lookup3 hash, "hashlittle" with seed 0 (public domain, 2006).</summary>
internal static class Lookup3
{
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint a = 0xdeadbeef + (uint)bytes.Length;
        uint b = a;
        uint c = a;
        while (bytes.Length > 12)
        {
            a += Word(bytes, 0);
            b += Word(bytes, 4);
            c += Word(bytes, 8);
            Mix(ref a, ref b, ref c);
            bytes = bytes[12..];
        }

        if (bytes.IsEmpty)
            return c;
        Span<byte> last = stackalloc byte[12];
        bytes.CopyTo(last);
        a += Word(last, 0);
        b += Word(last, 4);
        c += Word(last, 8);
        return Final(a, b, c);
    }

    private static uint Word(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32LittleEndian(bytes[at..]);

    private static void Mix(ref uint a, ref uint b, ref uint c)
    {
        Step(ref a, ref c, ref b, 4);
        Step(ref b, ref a, ref c, 6);
        Step(ref c, ref b, ref a, 8);
        Step(ref a, ref c, ref b, 16);
        Step(ref b, ref a, ref c, 19);
        Step(ref c, ref b, ref a, 4);
    }

    private static void Step(ref uint p, ref uint q, ref uint r, int turn)
    {
        p -= q;
        p ^= RotateLeft(q, turn);
        q += r;
    }

    private static uint Final(uint a, uint b, uint c)
    {
        c = (c ^ b) - RotateLeft(b, 14);
        a = (a ^ c) - RotateLeft(c, 11);
        b = (b ^ a) - RotateLeft(a, 25);
        c = (c ^ b) - RotateLeft(b, 16);
        a = (a ^ c) - RotateLeft(c, 4);
        b = (b ^ a) - RotateLeft(a, 14);
        return (c ^ b) - RotateLeft(b, 24);
    }
}
