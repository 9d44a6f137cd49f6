using System.Numerics;
using System.Runtime.InteropServices;

namespace BosFlow.Numerics.Spectral;

/// <summary>The butterflies of <see cref="AxisFft"/>: one stage from one buffer to the other.</summary>
internal static class FftStages
{
    // Twiddle factor of butterfly p in a stage of size n is exp(-2 pi i p / n), entry p * (Length / n) of the table.
    // "block" floats that belong to one butterfly leg lie side by side.
    public static void Radix4(
        ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi,
        ReadOnlySpan<float> cosine, ReadOnlySpan<float> sine, int tableStep, int n, int block)
    {
        int quarter = n / 4;
        int width = Vector<float>.Count;
        ref float xrBase = ref MemoryMarshal.GetReference(xr);
        ref float xiBase = ref MemoryMarshal.GetReference(xi);
        ref float yrBase = ref MemoryMarshal.GetReference(yr);
        ref float yiBase = ref MemoryMarshal.GetReference(yi);
        for (int p = 0; p < quarter; p++)
        {
            float c1 = cosine[p * tableStep], s1 = sine[p * tableStep];
            float c2 = cosine[2 * p * tableStep], s2 = sine[2 * p * tableStep];
            float c3 = cosine[3 * p * tableStep], s3 = sine[3 * p * tableStep];
            int a = p * block, b = (p + quarter) * block, c = (p + (2 * quarter)) * block, d = (p + (3 * quarter)) * block;
            int out0 = 4 * p * block;
            int q = 0;
            for (; q <= block - width; q += width)
            {
                Vector<float> ar = Vector.LoadUnsafe(ref xrBase, (nuint)(a + q)), ai = Vector.LoadUnsafe(ref xiBase, (nuint)(a + q));
                Vector<float> br = Vector.LoadUnsafe(ref xrBase, (nuint)(b + q)), bi = Vector.LoadUnsafe(ref xiBase, (nuint)(b + q));
                Vector<float> cr = Vector.LoadUnsafe(ref xrBase, (nuint)(c + q)), ci = Vector.LoadUnsafe(ref xiBase, (nuint)(c + q));
                Vector<float> dr = Vector.LoadUnsafe(ref xrBase, (nuint)(d + q)), di = Vector.LoadUnsafe(ref xiBase, (nuint)(d + q));
                Vector<float> sumAcR = ar + cr, sumAcI = ai + ci, difAcR = ar - cr, difAcI = ai - ci;
                Vector<float> sumBdR = br + dr, sumBdI = bi + di;
                Vector<float> turnR = di - bi, turnI = br - dr; // i * (b - d)
                Vector<float> tr = difAcR - turnR, ti = difAcI - turnI;
                nuint at = (nuint)(out0 + q);
                (sumAcR + sumBdR).StoreUnsafe(ref yrBase, at);
                (sumAcI + sumBdI).StoreUnsafe(ref yiBase, at);
                at += (nuint)block;
                ((tr * c1) - (ti * s1)).StoreUnsafe(ref yrBase, at);
                ((tr * s1) + (ti * c1)).StoreUnsafe(ref yiBase, at);
                at += (nuint)block;
                tr = sumAcR - sumBdR;
                ti = sumAcI - sumBdI;
                ((tr * c2) - (ti * s2)).StoreUnsafe(ref yrBase, at);
                ((tr * s2) + (ti * c2)).StoreUnsafe(ref yiBase, at);
                at += (nuint)block;
                tr = difAcR + turnR;
                ti = difAcI + turnI;
                ((tr * c3) - (ti * s3)).StoreUnsafe(ref yrBase, at);
                ((tr * s3) + (ti * c3)).StoreUnsafe(ref yiBase, at);
            }

            for (; q < block; q++)
            {
                float sumAcR = xr[a + q] + xr[c + q], sumAcI = xi[a + q] + xi[c + q];
                float difAcR = xr[a + q] - xr[c + q], difAcI = xi[a + q] - xi[c + q];
                float sumBdR = xr[b + q] + xr[d + q], sumBdI = xi[b + q] + xi[d + q];
                float turnR = xi[d + q] - xi[b + q], turnI = xr[b + q] - xr[d + q];
                int at = out0 + q;
                yr[at] = sumAcR + sumBdR;
                yi[at] = sumAcI + sumBdI;
                Turn(difAcR - turnR, difAcI - turnI, c1, s1, yr, yi, at + block);
                Turn(sumAcR - sumBdR, sumAcI - sumBdI, c2, s2, yr, yi, at + (2 * block));
                Turn(difAcR + turnR, difAcI + turnI, c3, s3, yr, yi, at + (3 * block));
            }
        }
    }

    public static void Radix2(
        ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi,
        ReadOnlySpan<float> cosine, ReadOnlySpan<float> sine, int tableStep, int n, int block)
    {
        int half = n / 2;
        for (int p = 0; p < half; p++)
        {
            float c = cosine[p * tableStep], s = sine[p * tableStep];
            int a = p * block, b = (p + half) * block, at = 2 * p * block;
            for (int q = 0; q < block; q++)
            {
                yr[at + q] = xr[a + q] + xr[b + q];
                yi[at + q] = xi[a + q] + xi[b + q];
                Turn(xr[a + q] - xr[b + q], xi[a + q] - xi[b + q], c, s, yr, yi, at + block + q);
            }
        }
    }

    private static void Turn(float re, float im, float cosine, float sine, Span<float> yr, Span<float> yi, int at)
    {
        yr[at] = (re * cosine) - (im * sine);
        yi[at] = (re * sine) + (im * cosine);
    }
}
