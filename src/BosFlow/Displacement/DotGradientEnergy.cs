using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>Sum of the squared derivative along one axis over the image of one dot: what tells a shift.</summary>
/// <remarks>
/// A disc of diameter D and contrast 1, blurred by a Gaussian of standard deviation s and averaged over square pixels, has the spectrum
/// (pi D^2 / 4) 2 J1(pi D k) / (pi D k) exp(-2 pi^2 s^2 k^2) sinc(kx) sinc(ky); by Parseval's theorem the energy of its derivative is the integral over the
/// plane of (2 pi kx)^2 times its square, here a sum over k with the mean over directions tabulated (derived). Check: a Gaussian dot of amplitude A has pi A^2 / 2 whatever its
/// size. Sampling aliases what lies beyond half a period a pixel; the mean over the places of dots is that of the integral.
/// </remarks>
public static class DotGradientEnergy
{
    private const int Steps = 96;
    private const double Highest = 1.2;
    private const int Directions = 32;

    private static readonly double[] PixelMean = [.. Enumerable.Range(0, Steps + 1).Select(i => MeanOverDirections(i * Highest / Steps))];

    /// <summary>Energy of one dot of contrast 1.</summary>
    /// <param name="discPixels">D: diameter of the sharp image of the disc, px, greater than 0.</param>
    /// <param name="blurPixels">e^-2 diameter of the blur without the pixel, 4 s, px, 0 or more.</param>
    /// <returns>1 (grey levels squared for each px squared, summed over pixels of 1 px squared).</returns>
    public static double PerDot(double discPixels, double blurPixels)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(discPixels);
        ArgumentOutOfRangeException.ThrowIfNegative(blurPixels);
        double sum = 0;
        for (int i = 1; i <= Steps; i++)
        {
            double frequency = i * Highest / Steps;
            double spectrum = Disc(discPixels, frequency) * Math.Exp(-2 * Square(Math.PI * blurPixels / 4 * frequency));
            double weight = i == Steps ? 0.5 : 1;
            sum += weight * Square(2 * Math.PI * frequency * spectrum) * PixelMean[i] * frequency;
        }

        return Math.PI * sum * Highest / Steps;
    }

    private static double Disc(double diameter, double frequency) =>
        Math.PI * diameter * diameter / 4 * DiscTransform.Value(diameter * frequency);

    /// <summary>Mean over directions of 2 cos^2 times the pixel's squared response.</summary>
    private static double MeanOverDirections(double frequency)
    {
        double sum = 0;
        for (int i = 0; i < Directions; i++)
        {
            (double sine, double cosine) = Math.SinCos((i + 0.5) * Math.PI / 2 / Directions);
            sum += 2 * Square(cosine * Sinc(frequency * cosine) * Sinc(frequency * sine));
        }

        return sum / Directions;
    }

    private static double Sinc(double x) => x < 1e-6 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);

    private static double Square(double x) => x * x;
}
