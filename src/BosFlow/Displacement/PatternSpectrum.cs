using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>What the spectrum of a printed pattern tells of the errors of its displacement.</summary>
/// <remarks>
/// <para>
/// A disc of diameter D and contrast 1, blurred by a Gaussian of standard deviation s and averaged over square pixels, has the power F^2 = ((pi D^2 / 4) (2 J1(pi D k) / (pi D k))
/// exp(-2 pi^2 s^2 k^2) sinc(kx) sinc(ky))^2 at the frequency k; a pattern of n dots a pixel has n F^2 S, S the structure factor of discs that keep apart (see <see cref="DotStructure"/>). Its
/// samples are interpolated by a B-spline that passes through them, whose response is H(k) = sinc(k)^(m+1) / sum over j of sinc(k + j)^(m+1), m its order
/// (M. Unser 1999, IEEE Signal Process. Mag. 16(6):22, form from memory); its derivative at the pixels is i d, d = sum of 2 pi (kx + j) H(kx + j).
/// </para>
/// <para>
/// Energy of the derivative a dot: integral of F^2 S d^2. A picture moved by u and interpolated back keeps, of every wave, the error sum over j of H(k + j) (exp(2 pi i j u) - 1): the part of it that looks like a shift is
/// a wave of the fraction of a pixel, of amplitude integral of F^2 S d (H(kx - 1) - H(kx + 1)) over the energy, and its whole power
/// differs from window to window as noise does (derived; docs/validation compares both with the engine). Frequencies in 1/px.
/// </para>
/// </remarks>
public sealed class PatternSpectrum
{
    private const int Steps = 96;
    private const double Highest = 1.2;

    private PatternSpectrum(double energy, double bias, double residual)
    {
        Energy = energy;
        BiasAmplitude = bias;
        Residual = residual;
    }

    /// <summary>Sum of the squared derivative along one axis over one dot of contrast 1; a lone Gaussian spot of amplitude A has pi A^2 / 2, whatever its size.</summary>
    public double Energy { get; }

    /// <summary>Amplitude of the error that interpolation makes of a shift, px: error = amplitude times sin(2 pi u).</summary>
    public double BiasAmplitude { get; }

    /// <summary>Sum of the squared error of interpolation over one dot of contrast 1, mean over all fractions of a pixel.</summary>
    public double Residual { get; }

    /// <summary>The spectrum of a pattern.</summary>
    /// <param name="discPixels">D: diameter of the sharp image of a disc, px, greater than 0.</param>
    /// <param name="blurPixels">e^-2 diameter of the blur without the pixel, 4 s, px, 0 or more.</param>
    /// <param name="coverage">Part of the area that discs cover, 0 to 0.7.</param>
    /// <param name="order">Interpolation between pixels.</param>
    public static PatternSpectrum Of(double discPixels, double blurPixels, double coverage, InterpolationOrder order)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(discPixels);
        ArgumentOutOfRangeException.ThrowIfNegative(blurPixels);
        PixelSpectrum pixel = order == InterpolationOrder.Cubic ? PixelSpectrum.Cubic : PixelSpectrum.Quintic;
        var structure = new DotStructure(discPixels, coverage);
        double energy = 0, bias = 0, residual = 0;
        for (int i = 1; i <= Steps; i++)
        {
            double frequency = i * Highest / Steps;
            double blur = Math.PI * blurPixels / 4 * frequency;
            double spectrum = Math.PI * discPixels * discPixels / 4 * DiscTransform.Value(discPixels * frequency) * Math.Exp(-2 * blur * blur);
            double power = spectrum * spectrum * structure.At(frequency) * 2 * Math.PI * frequency * Highest / Steps;
            energy += power * pixel.Energy(i);
            bias += power * pixel.Bias(i);
            residual += power * pixel.Residual(i);
        }

        return new PatternSpectrum(energy, bias / energy, residual);
    }
}
