using System.Numerics;

namespace BosFlow.Numerics.Spectral;

/// <summary>
/// Complex discrete Fourier transform along one axis of a block of floats laid out [axis][inner]: every run of
/// <c>inner</c> neighbouring floats is transformed side by side, so that one vector instruction serves several signals.
/// </summary>
/// <remarks>
/// X_k = sum_j x_j exp(-2 pi i j k / n), no scaling. Stockham's self-sorting scheme, radix 4 with one radix-2 stage where
/// log2 n is odd. Source: Cooley and Tukey 1965, doi 10.1090/S0025-5718-1965-0178586-1; the ordering as described by
/// Van Loan, Computational Frameworks for the Fast Fourier Transform, SIAM 1992, section 1.7 (from memory).
/// No fused multiply-add is used: a signal's result does not depend on how many others are beside it.
/// Immutable; safe for several threads, each with its own data.
/// </remarks>
public sealed class AxisFft
{
    private readonly float[] cosine;
    private readonly float[] sine;

    /// <summary>Prepares the twiddle factors of one length.</summary>
    /// <param name="length">Length of the axis: a power of two, 2 to 4096.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is not a power of two in that range.</exception>
    public AxisFft(int length)
    {
        if (length is < 2 or > 4096 || !BitOperations.IsPow2(length))
            throw new ArgumentOutOfRangeException(nameof(length), length, "The length must be a power of two from 2 to 4096.");
        Length = length;
        cosine = new float[length];
        sine = new float[length];
        for (int k = 0; k < length; k++)
        {
            double angle = -2 * Math.PI * k / length;
            cosine[k] = (float)Math.Cos(angle);
            sine[k] = (float)Math.Sin(angle);
        }
    }

    /// <summary>Length of the axis.</summary>
    public int Length { get; }

    /// <summary>Transforms in place. The inverse (unscaled) is the same call with the real and imaginary parts swapped.</summary>
    /// <param name="real">Real parts, Length * inner floats.</param>
    /// <param name="imaginary">Imaginary parts, same length.</param>
    /// <param name="scratch">Scratch, at least twice that length; must not overlap the others.</param>
    /// <param name="inner">Number of floats side by side at each position of the axis, at least 1.</param>
    /// <exception cref="ArgumentException">A length does not fit.</exception>
    public void Transform(Span<float> real, Span<float> imaginary, Span<float> scratch, int inner)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(inner, 1);
        int count = checked(Length * inner);
        if (real.Length != count || imaginary.Length != count || scratch.Length < 2 * count)
            throw new ArgumentException($"Real and imaginary parts need {count} floats and the scratch {2 * count}.");

        Span<float> otherReal = scratch[..count];
        Span<float> otherImaginary = scratch.Slice(count, count);
        bool inScratch = false;
        int remaining = Length;
        int block = inner;
        while (remaining > 1)
        {
            int radix = remaining % 4 == 0 ? 4 : 2;
            Span<float> fromReal = inScratch ? otherReal : real;
            Span<float> fromImaginary = inScratch ? otherImaginary : imaginary;
            Span<float> toReal = inScratch ? real : otherReal;
            Span<float> toImaginary = inScratch ? imaginary : otherImaginary;
            if (radix == 4)
                FftStages.Radix4(fromReal, fromImaginary, toReal, toImaginary, cosine, sine, Length / remaining, remaining, block);
            else
                FftStages.Radix2(fromReal, fromImaginary, toReal, toImaginary, cosine, sine, Length / remaining, remaining, block);
            inScratch = !inScratch;
            remaining /= radix;
            block *= radix;
        }

        if (inScratch)
        {
            otherReal.CopyTo(real);
            otherImaginary.CopyTo(imaginary);
        }
    }
}
