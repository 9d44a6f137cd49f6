using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Registration;

/// <summary>Up to which frequency a pattern stands out of the noise of its pictures: how much smoothness a joint reference needs.</summary>
/// <remarks>
/// The power of dots of one size falls with the frequency f about as S(f) = 4 pi s^2 C^2 exp(-4 pi^2 s^2 f^2), C^2 the variance of the pattern and s^2 = C^2 / G^2, G^2 the mean square of its
/// gradient (the second moment of that power; derived). The mean of n pictures has the noise power sigma^2 / n; the two meet at f^2 = ln(n S(0) / sigma^2) / (4 pi^2 s^2). There the roughness
/// weighs as much as the pictures (see <see cref="FineSplineFit"/>), which is where an optimal filter passes one half.
/// </remarks>
internal static class PatternCutoff
{
    private const double Least = 0.5;
    private const double Most = 1;

    /// <summary>Weight of the roughness of a joint reference.</summary>
    /// <param name="mean">Mean of the aligned pictures, without NaN.</param>
    /// <param name="first">One of them, as it was recorded on the same grid.</param>
    /// <param name="count">Number of pictures, at least 2.</param>
    public static double Strength(ReadOnlySpan<float> mean, GrayImage first, int count) =>
        count / 4.0 / Math.Pow(Math.PI * Frequency(mean, first, count), 8);

    /// <summary>The frequency, cycles a pixel, 0.5 to 1.</summary>
    /// <param name="mean">Mean of the aligned pictures, without NaN.</param>
    /// <param name="first">One of them, as it was recorded on the same grid.</param>
    /// <param name="count">Number of pictures, at least 2.</param>
    public static double Frequency(ReadOnlySpan<float> mean, GrayImage first, int count)
    {
        float[] gradientX = new float[mean.Length], gradientY = new float[mean.Length];
        SplineGradient.Compute(mean, first.Width, first.Height, gradientX, gradientY);
        double sum = 0, squares = 0, gradients = 0, differences = 0;
        long compared = 0;
        for (int i = 0; i < mean.Length; i++)
        {
            sum += mean[i];
            squares += (double)mean[i] * mean[i];
            gradients += ((double)gradientX[i] * gradientX[i]) + ((double)gradientY[i] * gradientY[i]);
            double difference = first.Pixels[i] - mean[i];
            if (double.IsNaN(difference))
                continue;
            differences += difference * difference;
            compared++;
        }

        double noise = differences / Math.Max(compared, 1) * count / (count - 1);
        double variance = (squares / mean.Length) - (sum / mean.Length * (sum / mean.Length)) - (noise / count);
        double gradient = (gradients / mean.Length) - (2 * SplineGradient.NoiseGain * noise / count);
        if (!(variance > 0) || !(gradient > 0))
            return Least;
        double size = variance / gradient;
        double contrast = 4 * Math.PI * size * variance * count / noise;
        return contrast > 1 ? Math.Clamp(Math.Sqrt(Math.Log(contrast) / (4 * Math.PI * Math.PI * size)), Least, Most) : Least;
    }
}
