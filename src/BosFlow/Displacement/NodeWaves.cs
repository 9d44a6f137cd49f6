namespace BosFlow.Displacement;

/// <summary>What one pass does to waves along the nodes of one axis (see <see cref="IterationNoise"/>): A, S and P, and the spectrum of the coarse pass's errors; the last passes have the weights of their shape (<see cref="ShapeKernel"/>).</summary>
internal sealed class NodeWaves
{
    private const int Waves = 32;
    private readonly double[] predictor = new double[Waves];
    private readonly double[] predictorBeyond = new double[Waves];
    private readonly double[] smoothing = new double[Waves];
    private readonly double[] spectrum = new double[Waves];
    private readonly double[] crossSpectrum = new double[Waves];
    private readonly double[] spectrumBeyond = new double[Waves];
    private readonly double[] coarse = new double[Waves];
    private readonly int passes;
    private readonly int firstShaped;

    public NodeWaves(DisplacementSettings settings)
    {
        passes = settings.Passes;
        firstShaped = settings.FirstResolvingPass;
        (double[] plain, double[] beyond) = ShapeKernel.Parts(settings);
        double[] overlap = WindowOverlap.Of(plain, plain, settings.SpacingPixels), cross = WindowOverlap.Of(plain, beyond, settings.SpacingPixels), overlapBeyond = WindowOverlap.Of(beyond, beyond, settings.SpacingPixels);
        double[] means = WindowMeans(plain, settings.SpacingPixels), meansBeyond = WindowMeans(beyond, settings.SpacingPixels);
        for (int i = 0; i < Waves; i++)
        {
            // Midpoints of half a period: everything is even.
            double wave = (i + 0.5) * Math.PI / Waves;
            predictor[i] = Transform(means, wave);
            predictorBeyond[i] = Transform(meansBeyond, wave);
            smoothing[i] = Math.Pow(Math.Cos(wave / 2), 2 * settings.PredictorSmoothings);
            spectrum[i] = Math.Max(0, Transform(overlap, wave));
            crossSpectrum[i] = Transform(cross, wave);
            spectrumBeyond[i] = Math.Max(0, Transform(overlapBeyond, wave));
            coarse[i] = CoarseSpectrum(settings.CoarseWindowPixels, settings.CoarseSpacingPixels, wave / (2 * Math.PI * settings.SpacingPixels));
        }
    }

    /// <summary>Variance of the result over that of the last step.</summary>
    public double Factor(double gain)
    {
        double above = 0, below = 0;
        for (int i = 0; i < Waves; i++)
        {
            for (int j = 0; j < Waves; j++)
            {
                double smoothed = smoothing[i] * smoothing[j], plainLoop = (1 - (gain * predictor[i] * predictor[j])) * smoothed, shapedLoop = (1 - (gain * Shaped(predictor, predictorBeyond, i, j))) * smoothed;
                double ofPlain = 0, ofShaped = 0;
                for (int pass = 1; pass < firstShaped; pass++)
                    ofPlain = 1 + (plainLoop * ofPlain);
                for (int pass = firstShaped; pass <= passes; pass++)
                    (ofPlain, ofShaped) = (shapedLoop * ofPlain, 1 + (shapedLoop * ofShaped));
                double own = ShapedPower(i, j), cross = Shaped(spectrum, crossSpectrum, i, j), plain = spectrum[i] * spectrum[j];
                above += (ofShaped * ofShaped * own) + (2 * ofPlain * ofShaped * cross) + (ofPlain * ofPlain * plain);
                below += own;
            }
        }

        return above / below;
    }

    /// <summary>Variance that the coarse pass's error leaves in the result, over that of the first step after it, which takes it off.</summary>
    public double Remaining()
    {
        double left = 0, step = 0;
        for (int i = 0; i < Waves; i++)
        {
            for (int j = 0; j < Waves; j++)
            {
                double shaped = Shaped(predictor, predictorBeyond, i, j), part = predictor[i] * predictor[j], first = firstShaped == 1 ? shaped : part, power = coarse[i] * coarse[j];
                double remaining = Math.Pow(1 - part, firstShaped - 1) * Math.Pow(1 - shaped, passes - firstShaped + 1) * Math.Pow(smoothing[i] * smoothing[j], passes - 1);
                left += remaining * remaining * power;
                step += first * first * power;
            }
        }

        return left / step;
    }

    private static double Shaped(double[] plain, double[] beyond, int i, int j) => ShapeKernel.OfBoth(plain[i], beyond[i], plain[j], beyond[j]);

    // The weights with themselves: each of their three terms with all of them.
    private double ShapedPower(int i, int j) => Math.Max(
        0,
        Shaped(spectrum, crossSpectrum, i, j)
            + ShapeKernel.OfBoth(crossSpectrum[i], spectrumBeyond[i], spectrum[j], crossSpectrum[j])
            + ShapeKernel.OfBoth(spectrum[i], crossSpectrum[i], crossSpectrum[j], spectrumBeyond[j]));

    // Errors of coarse windows, carried to finer nodes by straight lines between theirs.
    private static double CoarseSpectrum(int side, double spacing, double frequency)
    {
        double angle = Math.PI * spacing * frequency;
        double line = Math.Sin(angle) / angle;
        return line * line * line * line * Transform(WindowOverlap.Correlation(side, spacing, WindowWeighting.TopHat), 2 * angle);
    }

    /// <summary>Weighted mean over a window of the cubic convolution that belongs to the node 0, 1, 2, ... spacings away.</summary>
    private static double[] WindowMeans(double[] weights, double spacing)
    {
        double centre = (weights.Length - 1) / 2.0;
        double[] means = new double[(int)Math.Ceiling(centre / spacing) + 3];
        for (int node = 0; node < means.Length; node++)
        {
            for (int x = 0; x < weights.Length; x++)
                means[node] += weights[x] * CubicConvolution(((x - centre) / spacing) - node);
        }

        return means;
    }

    // R. Keys 1981, a = -1/2, as PredictorField has it.
    internal static double CubicConvolution(double distance)
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
