using System.Runtime.Intrinsics;

namespace BosFlow.Benchmarks.Performance;

/// <summary>8-bit pixels to floats.</summary>
internal static class ByteConversion
{
    public static void ToFloats(byte[] bytes, float[] target, int threads)
    {
        if (threads == 1)
        {
            Convert(bytes, target);
            return;
        }

        int share = (bytes.Length + threads - 1) / threads;
        Parallel.For(0, threads, part =>
        {
            int first = part * share, count = Math.Min(share, bytes.Length - first);
            Convert(bytes.AsSpan(first, count), target.AsSpan(first, count));
        });
    }

    private static void Convert(ReadOnlySpan<byte> bytes, Span<float> target)
    {
        int i = 0;
        for (; i <= bytes.Length - 16; i += 16)
        {
            (Vector128<ushort> low, Vector128<ushort> high) = Vector128.Widen(Vector128.Create(bytes.Slice(i, 16)));
            Vector256.ConvertToSingle(Vector256.Create(Vector128.WidenLower(low), Vector128.WidenUpper(low)).AsInt32()).CopyTo(target[i..]);
            Vector256.ConvertToSingle(Vector256.Create(Vector128.WidenLower(high), Vector128.WidenUpper(high)).AsInt32()).CopyTo(target[(i + 8)..]);
        }

        for (; i < bytes.Length; i++)
            target[i] = bytes[i];
    }
}
