namespace BosFlow.Displacement;

/// <summary>What one pass does to waves along the nodes of one axis (see <see cref="IterationNoise"/>): A, S and P, and the spectrum of the coarse pass's errors.</summary>
internal sealed class NodeWaves
{
    private const int Waves = 32;
    private readonly double[] predictor = new double[Waves];
    private readonly double[] smoothing = new double[Waves];
    private readonly double[] spectrum = new double[Waves];
    private readonly double[] coarse = new double[Waves];

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
            coarse[i] = CoarseSpectrum(settings.CoarseWindowPixels, wave / (2 * Math.PI * settings.SpacingPixels));
        }
    }

    /// <summary>Variance of the result over that of the last step.</summary>
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

    /// <summary>Variance that the coarse pass's error leaves in the result, over that of the first step after it, which takes it off.</summary>
    public double Remaining(int passes)
    {
        double left = 0, step = 0;
        for (int i = 0; i < Waves; i++)
        {
            for (int j = 0; j < Waves; j++)
            {
                double part = predictor[i] * predictor[j], power = coarse[i] * coarse[j];
                double remaining = Math.Pow(1 - part, passes) * Math.Pow(smoothing[i] * smoothing[j], passes - 1);
                left += remaining * remaining * power;
                step += part * part * power;
            }
        }

        return left / step;
    }

    // Errors of coarse windows that overlap by half, carried to finer nodes by straight lines between theirs.
    private static double CoarseSpectrum(int side, double frequency)
    {
        double spacing = side / 2.0, angle = Math.PI * spacing * frequency;
        double line = Math.Sin(angle) / angle;
        return line * line * line * line * Transform(WindowOverlap.Correlation(side, spacing, WindowWeighting.TopHat), 2 * angle);
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
