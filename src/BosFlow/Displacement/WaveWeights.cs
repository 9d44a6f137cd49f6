namespace BosFlow.Displacement;

/// <summary>The weights along both axes with which the waves of a reference tell most of a shift.</summary>
/// <remarks>
/// <para>
/// A match sums h e: h the derivative of the reference, weighted by F in its waves, e the difference of the reference and a frame that is moved back. P be the power of the pattern, n and m the variances of the noise in reference and frame, D the derivative, A the power of the waves shorter than two
/// pixels, which pixels show as longer ones, and R that of what interpolation makes of the longer ones. Moved back, the waves of A are turned by a full turn for every pixel of displacement, and leave 2 A in e in the mean over all fractions u of a pixel; R / P is that mean of
/// |sum over j of H (w + 2 pi j) exp(2 pi i j u) - 1|^2, H the response of the spline. The variance of a match is then integral of F^2 D^2 V over (integral of F D^2 P)^2 with V = (P + A)(2 A + R + n + m) + n (2 A + R + m), least for F = P / V (derived). Without A and R and for n = m this is 1 / (1 + n / 2 P), the weight of
/// N. Wiener 1949, and the variance the least there is for a pattern that is not known beforehand (C. H. Knapp and G. C. Carter 1976; both from memory).
/// </para>
/// <para>
/// F is a product of one factor along each axis: the one along x is least squares for the shift along x with the one along y given, integral of F_y P over integral of F_y^2 V along y, and so in turn. The power in the plane is the product of those along the axes.
/// </para>
/// </remarks>
internal static class WaveWeights
{
    /// <summary>Number of weights along an axis.</summary>
    public const int Count = 64;

    private const int Rounds = 4;
    private const int Aliases = 2;

    // Of the term n (2 A + R + m), the reference's own noise in its derivatives. For a window by itself it hardly matters (0.3 % from 0.3 to 2), but weights that reach less far are 1 to 2 % better at 5 % noise where passes follow each other and windows overlap. Judgement.
    private const double OwnNoise = 0.4;

    // Of the power of the longest waves: without any noise the formula has no value.
    private const double LeastFrameNoise = 1e-9;

    /// <summary>The weights of waves along x and y at <see cref="Frequency"/>, the largest 1.</summary>
    public static (double[] X, double[] Y) Of(SampledPattern alongX, SampledPattern alongY, MatchNoise noise)
    {
        double power = SampledPattern.LongestPower(alongX, alongY);
        AxisWaves x = new(alongX.Dot, noise.Interpolation), y = new(alongY.Dot, noise.Interpolation);
        noise = noise with { Frame = Math.Max(noise.Frame, LeastFrameNoise * power) };
        double[] weightsX = [.. Enumerable.Repeat(1.0, Count)], weightsY = weightsX;
        for (int round = 0; round < Rounds; round++)
        {
            weightsX = Best(x, y, weightsY, power, noise);
            weightsY = Best(y, x, weightsX, power, noise);
        }

        return (weightsX, weightsY);
    }

    /// <summary>Frequency of a weight, rad/px: midpoints of steps up to the limit of the pixels.</summary>
    public static double Frequency(int k) => (k + 0.5) * Math.PI / Count;

    /// <summary>What interpolation makes of the power of white noise at a frequency, in the mean over all fractions of a pixel: sum of the squares of H at all aliases.</summary>
    /// <param name="interpolation">The spline; null = none.</param>
    /// <param name="frequency">rad/px.</param>
    public static double NoisePower(InterpolationOrder? interpolation, double frequency) => Enumerable.Range(-Aliases, (2 * Aliases) + 1).Sum(alias => Math.Pow(Response(interpolation, frequency, alias), 2));

    private static double[] Best(AxisWaves along, AxisWaves across, double[] acrossWeights, double power, MatchNoise noise)
    {
        double[] best = new double[Count];
        for (int k = 0; k < Count; k++)
        {
            double told = 0, scatter = 0;
            for (int j = 0; j < Count; j++)
            {
                double own = power * along.Own[k] * across.Own[j], all = power * along.All[k] * across.All[j];
                double interpolated = own * ((along.Squares[k] * across.Squares[j]) - (2 * along.Kept[k] * across.Kept[j]) + 1), wrong = (2 * (all - own)) + interpolated;
                told += acrossWeights[j] * own;
                scatter += acrossWeights[j] * acrossWeights[j] * ((all * (wrong + noise.Reference + noise.Frame)) + (OwnNoise * noise.Reference * (wrong + noise.Frame)));
            }

            best[k] = told / scatter;
        }

        double largest = best.Max();
        return [.. best.Select(weight => weight / largest)];
    }

    private static double Response(InterpolationOrder? interpolation, double frequency, int alias) => interpolation switch
    {
        null => alias == 0 ? 1 : 0,
        InterpolationOrder.Cubic => PixelSpectrum.Cardinal(3, frequency / (2 * Math.PI), alias),
        _ => PixelSpectrum.Cardinal(5, frequency / (2 * Math.PI), alias),
    };

    /// <summary>Waves along an axis; where what interpolation does is taken off, the shorter waves are too.</summary>
    private sealed class AxisWaves(DotPower dot, InterpolationOrder? interpolation)
    {
        /// <summary>Power over that of the longest waves.</summary>
        public double[] Own { get; } = Each(dot.At);

        /// <summary>The same with that of the shorter waves which look like them.</summary>
        public double[] All { get; } = Each(w => dot.At(w) + (interpolation is null ? 0 : Beyond(dot, (2 * Math.PI) - w)));

        /// <summary>H.</summary>
        public double[] Kept { get; } = Each(w => Response(interpolation, w, 0));

        /// <summary>Sum of the squares of H at all aliases.</summary>
        public double[] Squares { get; } = Each(w => NoisePower(interpolation, w));

        // What sharp edges of discs leave beyond the pixels' limit is told badly by what lies below it: not more than Gaussian dots as wide have.
        private static double Beyond(DotPower dot, double frequency)
        {
            double blurred = dot.DiameterPixels * frequency / 4, pixel = PixelSpectrum.Sinc(frequency / (2 * Math.PI));
            return Math.Min(dot.At(frequency), pixel * pixel * Math.Exp(-blurred * blurred));
        }

        private static double[] Each(Func<double, double> value) => [.. Enumerable.Range(0, Count).Select(k => value(Frequency(k)))];
    }
}
