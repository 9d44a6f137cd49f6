using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Spectral;

/// <summary>Complex discrete Fourier transform of 16, 32 or 64 points for several signals side by side, in two stages that stay in registers.</summary>
/// <remarks>
/// With n = f s points, j = s j1 + j2 and k = k1 + f k2: X_k = sum over j2 of w^(j2 k1) [sum over j1 of x_j exp(-2 pi i j1 k1 / f)] exp(-2 pi i j2 k2 / s), w = exp(-2 pi i / n).
/// Source: Cooley and Tukey 1965, doi 10.1090/S0025-5718-1965-0178586-1. The places of input and output are free, so that a transform also turns rows into columns.
/// Butterflies are compiled by themselves: within their callers they use up what the compiler spends on inlining, and sums and products of lanes become calls.
/// Immutable; safe for several threads, each with its own data.
/// </remarks>
internal sealed class LaneFft
{
    private const float Diagonal = 0.70710678f;

    private readonly int first;
    private readonly int second;
    private readonly float[] cosine;
    private readonly float[] sine;

    public LaneFft(int points)
    {
        (first, second) = points switch
        {
            16 => (4, 4),
            32 => (4, 8),
            64 => (8, 8),
            _ => throw new ArgumentOutOfRangeException(nameof(points), points, "The number of points must be 16, 32 or 64."),
        };
        Points = points;
        cosine = new float[points];
        sine = new float[points];
        for (int k1 = 0; k1 < first; k1++)
        {
            for (int j2 = 0; j2 < second; j2++)
            {
                double angle = -2 * Math.PI * k1 * j2 / points;
                cosine[(j2 * first) + k1] = (float)Math.Cos(angle);
                sine[(j2 * first) + k1] = (float)Math.Sin(angle);
            }
        }
    }

    public int Points { get; }

    /// <summary>Transforms T.Count signals. The inverse (unscaled) is the same call with the real and imaginary parts swapped.</summary>
    /// <param name="real">Real parts of point 0.</param>
    /// <param name="imaginary">Imaginary parts of point 0.</param>
    /// <param name="stride">Floats from one point to the next.</param>
    /// <param name="outReal">Real parts of the result; may be the input.</param>
    /// <param name="outImaginary">Imaginary parts of the result.</param>
    /// <param name="outStride">Floats from one point of the result to the next.</param>
    /// <param name="scratch">2 * Points * T.Count floats.</param>
    public void Transform<T>(ref float real, ref float imaginary, nint stride, ref float outReal, ref float outImaginary, nint outStride, Span<float> scratch)
        where T : struct, ILanes<T>
    {
        ref float between = ref MemoryMarshal.GetReference(scratch);
        ref float betweenImaginary = ref Unsafe.Add(ref between, Points * T.Count);
        for (int j2 = 0; j2 < second; j2++)
        {
            ref float c = ref cosine[j2 * first];
            ref float s = ref sine[j2 * first];
            ref float re = ref Unsafe.Add(ref real, j2 * stride);
            ref float im = ref Unsafe.Add(ref imaginary, j2 * stride);
            nint at = j2 * T.Count, step = second * T.Count;
            if (first == 4)
                Four<T>(ref re, ref im, second * stride, ref Unsafe.Add(ref between, at), ref Unsafe.Add(ref betweenImaginary, at), step, ref c, ref s);
            else
                EightTurned<T>(ref re, ref im, second * stride, ref Unsafe.Add(ref between, at), ref Unsafe.Add(ref betweenImaginary, at), step, ref c, ref s);
        }

        for (int k1 = 0; k1 < first; k1++)
        {
            ref float re = ref Unsafe.Add(ref between, k1 * second * T.Count);
            ref float im = ref Unsafe.Add(ref betweenImaginary, k1 * second * T.Count);
            ref float toRe = ref Unsafe.Add(ref outReal, k1 * outStride);
            ref float toIm = ref Unsafe.Add(ref outImaginary, k1 * outStride);
            if (second == 4)
                Four<T>(ref re, ref im, T.Count, ref toRe, ref toIm, first * outStride, ref cosine[0], ref sine[0]);
            else
                Eight<T>(ref re, ref im, T.Count, ref toRe, ref toIm, first * outStride);
        }
    }

    // Four points; result k is turned by the twiddle factor k.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Four<T>(ref float re, ref float im, nint stride, ref float toRe, ref float toIm, nint toStride, ref float c, ref float s)
        where T : struct, ILanes<T>
    {
        T ar = T.Load(ref re, 0), ai = T.Load(ref im, 0), br = T.Load(ref re, stride), bi = T.Load(ref im, stride);
        T cr = T.Load(ref re, 2 * stride), ci = T.Load(ref im, 2 * stride), dr = T.Load(ref re, 3 * stride), di = T.Load(ref im, 3 * stride);
        T evenR = ar + cr, evenI = ai + ci, oddR = br + dr, oddI = bi + di;
        (evenR + oddR).Store(ref toRe, 0);
        (evenI + oddI).Store(ref toIm, 0);
        Turn(evenR - oddR, evenI - oddI, ref toRe, ref toIm, 2 * toStride, ref c, ref s, 2);
        evenR = ar - cr;
        evenI = ai - ci;
        oddR = br - dr;
        oddI = bi - di;
        Turn(evenR + oddI, evenI - oddR, ref toRe, ref toIm, toStride, ref c, ref s, 1);
        Turn(evenR - oddI, evenI + oddR, ref toRe, ref toIm, 3 * toStride, ref c, ref s, 3);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Eight<T>(ref float re, ref float im, nint stride, ref float toRe, ref float toIm, nint toStride)
        where T : struct, ILanes<T>
    {
        Halves<T>(ref re, ref im, stride, 0, out T a0r, out T a0i, out T a1r, out T a1i, out T a2r, out T a2i, out T a3r, out T a3i);
        Halves<T>(ref re, ref im, stride, stride, out T b0r, out T b0i, out T b1r, out T b1i, out T b2r, out T b2i, out T b3r, out T b3i);
        TurnOdd(ref b1r, ref b1i, ref b2r, ref b2i, ref b3r, ref b3i);
        (a0r + b0r).Store(ref toRe, 0);
        (a0i + b0i).Store(ref toIm, 0);
        (a1r + b1r).Store(ref toRe, toStride);
        (a1i + b1i).Store(ref toIm, toStride);
        (a2r + b2r).Store(ref toRe, 2 * toStride);
        (a2i + b2i).Store(ref toIm, 2 * toStride);
        (a3r + b3r).Store(ref toRe, 3 * toStride);
        (a3i + b3i).Store(ref toIm, 3 * toStride);
        (a0r - b0r).Store(ref toRe, 4 * toStride);
        (a0i - b0i).Store(ref toIm, 4 * toStride);
        (a1r - b1r).Store(ref toRe, 5 * toStride);
        (a1i - b1i).Store(ref toIm, 5 * toStride);
        (a2r - b2r).Store(ref toRe, 6 * toStride);
        (a2i - b2i).Store(ref toIm, 6 * toStride);
        (a3r - b3r).Store(ref toRe, 7 * toStride);
        (a3i - b3i).Store(ref toIm, 7 * toStride);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void EightTurned<T>(ref float re, ref float im, nint stride, ref float toRe, ref float toIm, nint toStride, ref float c, ref float s)
        where T : struct, ILanes<T>
    {
        Halves<T>(ref re, ref im, stride, 0, out T a0r, out T a0i, out T a1r, out T a1i, out T a2r, out T a2i, out T a3r, out T a3i);
        Halves<T>(ref re, ref im, stride, stride, out T b0r, out T b0i, out T b1r, out T b1i, out T b2r, out T b2i, out T b3r, out T b3i);
        TurnOdd(ref b1r, ref b1i, ref b2r, ref b2i, ref b3r, ref b3i);
        (a0r + b0r).Store(ref toRe, 0);
        (a0i + b0i).Store(ref toIm, 0);
        Turn(a1r + b1r, a1i + b1i, ref toRe, ref toIm, toStride, ref c, ref s, 1);
        Turn(a2r + b2r, a2i + b2i, ref toRe, ref toIm, 2 * toStride, ref c, ref s, 2);
        Turn(a3r + b3r, a3i + b3i, ref toRe, ref toIm, 3 * toStride, ref c, ref s, 3);
        Turn(a0r - b0r, a0i - b0i, ref toRe, ref toIm, 4 * toStride, ref c, ref s, 4);
        Turn(a1r - b1r, a1i - b1i, ref toRe, ref toIm, 5 * toStride, ref c, ref s, 5);
        Turn(a2r - b2r, a2i - b2i, ref toRe, ref toIm, 6 * toStride, ref c, ref s, 6);
        Turn(a3r - b3r, a3i - b3i, ref toRe, ref toIm, 7 * toStride, ref c, ref s, 7);
    }

    // Four points, every other one of eight.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Halves<T>(
        ref float re, ref float im, nint stride, nint at, out T r0, out T i0, out T r1, out T i1, out T r2, out T i2, out T r3, out T i3)
        where T : struct, ILanes<T>
    {
        T ar = T.Load(ref re, at), ai = T.Load(ref im, at), cr = T.Load(ref re, at + (4 * stride)), ci = T.Load(ref im, at + (4 * stride));
        T br = T.Load(ref re, at + (2 * stride)), bi = T.Load(ref im, at + (2 * stride)), dr = T.Load(ref re, at + (6 * stride)), di = T.Load(ref im, at + (6 * stride));
        T evenR = ar + cr, evenI = ai + ci, oddR = br + dr, oddI = bi + di;
        r0 = evenR + oddR;
        i0 = evenI + oddI;
        r2 = evenR - oddR;
        i2 = evenI - oddI;
        evenR = ar - cr;
        evenI = ai - ci;
        oddR = br - dr;
        oddI = bi - di;
        r1 = evenR + oddI;
        i1 = evenI - oddR;
        r3 = evenR - oddI;
        i3 = evenI + oddR;
    }

    // Times exp(-2 pi i k / 8), k = 1, 2, 3.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void TurnOdd<T>(ref T r1, ref T i1, ref T r2, ref T i2, ref T r3, ref T i3)
        where T : struct, ILanes<T>
    {
        T diagonal = T.Of(Diagonal);
        (r1, i1) = ((r1 + i1) * diagonal, (i1 - r1) * diagonal);
        (r2, i2) = (i2, T.Of(0) - r2);
        (r3, i3) = ((i3 - r3) * diagonal, T.Of(0) - ((r3 + i3) * diagonal));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Turn<T>(T re, T im, ref float toRe, ref float toIm, nint at, ref float c, ref float s, int k)
        where T : struct, ILanes<T>
    {
        T cosine = T.Of(Unsafe.Add(ref c, k)), sine = T.Of(Unsafe.Add(ref s, k));
        ((re * cosine) - (im * sine)).Store(ref toRe, at);
        T.MultiplyAdd(re, sine, im * cosine).Store(ref toIm, at);
    }
}
