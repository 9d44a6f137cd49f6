using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>Low-pass of the reference's derivatives: what weight each wave of a noisy pattern has in a match.</summary>
/// <remarks>
/// The weights are those of <see cref="WaveWeights"/>, as far as the taps reach. The filtered derivative h is scaled so that its product with the derivative is its own square, noise apart: then a step has the right length, and all sums of the derivatives keep their meaning.
/// </remarks>
internal sealed class GradientFilter
{
    /// <summary>Farthest pixel whose derivative takes part.</summary>
    public const int Reach = 8;

    private const double LargestScale = 4;

    private readonly float[] alongX;
    private readonly float[] alongY;

    private GradientFilter(float[] alongX, float[] alongY)
    {
        this.alongX = alongX;
        this.alongY = alongY;
    }

    /// <summary>Weights of the pixels at -Reach to Reach along x.</summary>
    public ReadOnlySpan<float> AlongX => alongX;

    /// <summary>The same along y.</summary>
    public ReadOnlySpan<float> AlongY => alongY;

    /// <summary>The filter of a reference with the given spectra.</summary>
    public static GradientFilter Of(SampledPattern alongX, SampledPattern alongY, MatchNoise noise)
    {
        (double[] weightsX, double[] weightsY) = WaveWeights.Of(alongX, alongY, noise);
        return new GradientFilter(Taps(weightsX), Taps(weightsY));
    }

    /// <summary>Response of weights at a frequency.</summary>
    /// <param name="taps">Weights, the middle one at 0.</param>
    /// <param name="frequency">rad/px.</param>
    public static double Response(ReadOnlySpan<float> taps, double frequency)
    {
        double sum = taps[Reach];
        for (int i = 1; i <= Reach; i++)
            sum += 2 * taps[Reach + i] * Math.Cos(frequency * i);
        return sum;
    }

    /// <summary>Variance of white noise of variance 1 behind weights along one axis.</summary>
    public static double NoiseGain(ReadOnlySpan<float> taps)
    {
        double sum = 0;
        foreach (float tap in taps)
            sum += (double)tap * tap;
        return sum;
    }

    /// <summary>Filters the derivatives in place and scales them.</summary>
    /// <param name="gradientX">Derivative along x, row-major; 0 where a pixel does not count.</param>
    /// <param name="gradientY">Derivative along y.</param>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="noise">Variance of the picture's noise, DN^2.</param>
    /// <returns>Mean over both derivatives of the variance that unit noise of the picture has in them.</returns>
    public double Apply(float[] gradientX, float[] gradientY, int width, double noise) =>
        (Apply(gradientX, width, alongX, alongY, noise) + Apply(gradientY, width, alongY, alongX, noise)) / 2;

    private double Apply(float[] gradient, int width, float[] along, float[] across, double noise)
    {
        float[] filtered = [.. gradient];
        PlaneFilter.Run(filtered, width, alongX, alongY);
        double product = 0, square = 0;
        int pixels = 0;
        for (int i = 0; i < gradient.Length; i++)
        {
            product += (double)gradient[i] * filtered[i];
            square += (double)filtered[i] * filtered[i];
            pixels += gradient[i] != 0 ? 1 : 0;
        }

        if (pixels == 0)
            return SplineGradient.NoiseGain;
        (double crossGain, double ownGain) = SplineGradient.NoiseGains(w => Response(along, w));
        double ofAcross = NoiseGain(across);
        double pattern = (square / pixels) - (noise * ownGain * ofAcross), common = (product / pixels) - (noise * crossGain * across[Reach]);
        double scale = pattern > 0 && common > 0 ? Math.Clamp(common / pattern, 1, LargestScale) : 1;
        for (int i = 0; i < gradient.Length; i++)
            gradient[i] = (float)(scale * filtered[i]);
        return scale * scale * ownGain * ofAcross;
    }

    private static float[] Taps(double[] weights)
    {
        float[] taps = new float[(2 * Reach) + 1];
        for (int i = 0; i <= Reach; i++)
        {
            double sum = 0;
            for (int k = 0; k < weights.Length; k++)
                sum += weights[k] * Math.Cos(WaveWeights.Frequency(k) * i);
            taps[Reach + i] = taps[Reach - i] = (float)(sum / weights.Length);
        }

        return taps;
    }
}
