using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace BosFlow.Numerics.Vectors;

/// <summary>Turns eight rows of eight floats into columns, in registers.</summary>
internal static class Transpose8
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Exchange(
        ref Vector256<float> r0, ref Vector256<float> r1, ref Vector256<float> r2, ref Vector256<float> r3,
        ref Vector256<float> r4, ref Vector256<float> r5, ref Vector256<float> r6, ref Vector256<float> r7)
    {
        Vector256<float> a0 = Avx.UnpackLow(r0, r1), a1 = Avx.UnpackHigh(r0, r1), a2 = Avx.UnpackLow(r2, r3), a3 = Avx.UnpackHigh(r2, r3);
        Vector256<float> a4 = Avx.UnpackLow(r4, r5), a5 = Avx.UnpackHigh(r4, r5), a6 = Avx.UnpackLow(r6, r7), a7 = Avx.UnpackHigh(r6, r7);
        Vector256<float> b0 = Avx.Shuffle(a0, a2, 0x44), b1 = Avx.Shuffle(a0, a2, 0xEE), b2 = Avx.Shuffle(a1, a3, 0x44), b3 = Avx.Shuffle(a1, a3, 0xEE);
        Vector256<float> b4 = Avx.Shuffle(a4, a6, 0x44), b5 = Avx.Shuffle(a4, a6, 0xEE), b6 = Avx.Shuffle(a5, a7, 0x44), b7 = Avx.Shuffle(a5, a7, 0xEE);
        r0 = Avx.Permute2x128(b0, b4, 0x20);
        r1 = Avx.Permute2x128(b1, b5, 0x20);
        r2 = Avx.Permute2x128(b2, b6, 0x20);
        r3 = Avx.Permute2x128(b3, b7, 0x20);
        r4 = Avx.Permute2x128(b0, b4, 0x31);
        r5 = Avx.Permute2x128(b1, b5, 0x31);
        r6 = Avx.Permute2x128(b2, b6, 0x31);
        r7 = Avx.Permute2x128(b3, b7, 0x31);
    }
}
