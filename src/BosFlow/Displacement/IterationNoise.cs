namespace BosFlow.Displacement;

/// <summary>How the noise of the last step grows by the noise of the predictor that the passes hand on.</summary>
/// <remarks>
/// <para>
/// A pass measures with the window w what its predictor lacks and adds it to the predictor's value in the middle: r' = s + g w (m - p) + e. Here m is the displacement of the picture, s the predictor at the nodes, p = K s the same
/// between them (cubic convolution K), e the error of one step and g its gain: the gradients are noisy, the normal matrix is too large by the share x of their noise, and a step goes the part g = 1 - x of its way.
/// Everything shifts with the nodes, so that waves exp(i t n) along the nodes n do not mix. With A = transform of the window's mean of K at the nodes, S = cos(t / 2)^(2 n) that of n smoothings, s = S r:
/// r' = L r + e, L = (1 - g A) S. After N passes r = e (1 + L + ... + L^(N-1)), the coarse pass left out. Therefore
/// </para>
/// <para>
/// variance of the result over that of one step = integral of (1 + L + ... + L^(N-1))^2 P / integral of P,
/// </para>
/// <para>
/// P the spectrum of e over the nodes: the transform of the correlation of overlapping windows, that is |transfer of the window|^2 folded at the nodes. It is the ratio of the integrals of |transfer of all passes|^2 and
/// |transfer of the window|^2, node spacing included (derived; docs/validation compares it with the engine). Both axes multiply in A, S and P. For windows of 32 px and no noise of the gradients
/// the root is 1.08 for nodes 16 px apart and two smoothings, 1.33 for 8 px and one, 1.23 for 8 px and two.
/// </para>
/// </remarks>
internal sealed class IterationNoise
{
    /// <summary>Largest share of noise in the gradients that is told from texture.</summary>
    public const double LargestShare = 0.5;

    private const int Shares = 10;
    private const int Waves = 32;
    private readonly double[] factors = new double[Shares + 1];

    /// <summary>Computes the factors of some settings.</summary>
    /// <param name="settings">Window, weighting, spacing, passes, smoothings.</param>
    public IterationNoise(DisplacementSettings settings)
    {
        var waves = new NodeWaves(settings);
        for (int share = 0; share <= Shares; share++)
            factors[share] = waves.Factor(1 - (LargestShare * share / Shares), settings.Passes);
    }

    /// <summary>The same where the gradients hold no noise.</summary>
    /// <param name="settings">Window, weighting, spacing, passes, smoothings.</param>
    public static double OfClearGradients(DisplacementSettings settings) => new NodeWaves(settings).Factor(1, settings.Passes);

    /// <summary>Variance of the result over that of the last step.</summary>
    /// <param name="noiseShare">Share of the reference's noise in the squares of its gradients, 0 to 1; beyond a half it is taken as a half.</param>
    public double Variance(double noiseShare)
    {
        double place = Math.Clamp(noiseShare / LargestShare, 0, 1) * Shares;
        int before = Math.Min((int)place, Shares - 1);
        return factors[before] + ((factors[before + 1] - factors[before]) * (place - before));
    }

    /// <summary>A, S and P along one axis.</summary>
    private sealed class NodeWaves
    {
        private readonly double[] predictor = new double[Waves];
        private readonly double[] smoothing = new double[Waves];
        private readonly double[] spectrum = new double[Waves];

        public NodeWaves(DisplacementSettings settings)
        {
            double[] overlap = WindowOverlap.Correlation(settings.WindowPixels, settings.SpacingPixels, settings.Weighting);
            double[] means = WindowMeans(WindowOverlap.Weights(settings.WindowPixels, settings.Weighting), settings.SpacingPixels);
            for (int i = 0; i < Waves; i++)
            {
                // Midpoints of half a period: everything is even.
                double wave = (i + 0.5) * Math.PI / Waves;
                predictor[i] = Transform(means, wave);
                smoothing[i] = Math.Pow(Math.Cos(wave / 2), 2 * settings.PredictorSmoothings);
                spectrum[i] = Math.Max(0, Transform(overlap, wave));
            }
        }

        public double Factor(double gain, int passes)
        {
            double above = 0, below = 0;
            for (int i = 0; i < Waves; i++)
            {
                for (int j = 0; j < Waves; j++)
                {
                    double loop = (1 - (gain * predictor[i] * predictor[j])) * smoothing[i] * smoothing[j], sum = 0;
                    for (int pass = 0; pass < passes; pass++)
                        sum = 1 + (loop * sum);
                    double power = spectrum[i] * spectrum[j];
                    above += sum * sum * power;
                    below += power;
                }
            }

            return above / below;
        }
    }

    /// <summary>Mean over a window of the cubic convolution that belongs to the node 0, 1, 2, ... spacings away.</summary>
    private static double[] WindowMeans(double[] weights, double spacing)
    {
        double centre = (weights.Length - 1) / 2.0, total = weights.Sum();
        double[] means = new double[(int)Math.Ceiling(centre / spacing) + 3];
        for (int node = 0; node < means.Length; node++)
        {
            for (int x = 0; x < weights.Length; x++)
                means[node] += weights[x] / total * CubicConvolution(((x - centre) / spacing) - node);
        }

        return means;
    }

    // R. Keys 1981, a = -1/2, as PredictorField has it.
    private static double CubicConvolution(double distance)
    {
        double t = Math.Abs(distance);
        return t < 1 ? 1 + (t * t * ((1.5 * t) - 2.5)) : t < 2 ? 2 + (t * (-4 + (t * (2.5 - (0.5 * t))))) : 0;
    }

    private static double Transform(double[] even, double wave)
    {
        double sum = even[0];
        for (int k = 1; k < even.Length; k++)
            sum += 2 * even[k] * Math.Cos(k * wave);
        return sum;
    }
}
