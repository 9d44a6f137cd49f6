using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Footage;

/// <summary>Grey levels from codes of 8 bits.</summary>
internal static class ByteLevels
{
    /// <summary>Writes every code as a float.</summary>
    /// <param name="codes">Codes.</param>
    /// <param name="levels">Grey levels, digital numbers; as many.</param>
    public static void Widen(ReadOnlySpan<byte> codes, Span<float> levels)
    {
        ref byte from = ref MemoryMarshal.GetReference(codes);
        ref float to = ref MemoryMarshal.GetReference(levels[..codes.Length]);
        int i = 0;
        for (; Avx512F.IsSupported && i <= codes.Length - Vector128<byte>.Count; i += Vector128<byte>.Count)
            Vector512.ConvertToSingle(Avx512F.ConvertToVector512Int32(Vector128.LoadUnsafe(ref from, (nuint)i))).StoreUnsafe(ref to, (nuint)i);
        for (; i <= codes.Length - Vector128<byte>.Count; i += Vector128<byte>.Count)
        {
            (Vector128<ushort> low, Vector128<ushort> high) = Vector128.Widen(Vector128.LoadUnsafe(ref from, (nuint)i));
            Put(low, ref to, i);
            Put(high, ref to, i + Vector128<ushort>.Count);
        }

        for (; i < codes.Length; i++)
            levels[i] = codes[i];
    }

    private static void Put(Vector128<ushort> codes, ref float to, int at)
    {
        (Vector128<uint> low, Vector128<uint> high) = Vector128.Widen(codes);
        Vector256.ConvertToSingle(Vector256.Create(low, high).AsInt32()).StoreUnsafe(ref to, (nuint)at);
    }
}
