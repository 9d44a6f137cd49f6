namespace BosFlow.Displacement;

/// <summary>Part of a wave of displacement that the engine measures, by its passes.</summary>
/// <remarks>
/// A pass adds to its predictor what the window finds missing, and the window averages with the response R of its weight: r' = p + R (1 - p), p the part that the
/// predictor holds; in the last two passes R is that of the windows' shape (<see cref="ShapeKernel"/>). The coarse pass leaves R of its own top-hat window; between the passes the predictor is smoothed n times by (1 2 1) / 4 on nodes h apart, which leaves
/// S = cos(pi h / wavelength)^(2 n): p = S r (derived). Not in it: gradients that weight the pixels of a window, and the interpolation between nodes; docs/validation
/// measures the response of real patterns, 0.01 to 0.03 above this.
/// </remarks>
public sealed class EngineResponse
{
    private readonly DisplacementSettings settings;
    private readonly double[] weights;
    private readonly double[] shaped;

    /// <summary>Prepares the response of some settings.</summary>
    /// <param name="settings">Windows, spacing, passes, weighting, smoothings.</param>
    public EngineResponse(DisplacementSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        this.settings = settings;
        weights = ShapeKernel.Along(settings with { Shape = WindowShape.Constant });
        shaped = ShapeKernel.Along(settings);
    }

    /// <summary>Part of a wave along one axis of the picture that is measured.</summary>
    /// <param name="frequency">1 / wavelength, 1/px, 0 to 0.5.</param>
    /// <returns>1 for long waves; may be slightly negative for waves shorter than the window.</returns>
    public double At(double frequency)
    {
        double window = Window(frequency), shape = settings.Shape == WindowShape.Quadratic ? Transform(shaped, frequency) : window;
        double cosine = Math.Cos(Math.PI * settings.SpacingPixels * frequency);
        double smoothing = 1;
        for (int i = 0; i < settings.PredictorSmoothings; i++)
            smoothing *= cosine * cosine;
        double part = Coarse(frequency);
        for (int pass = 0; pass < settings.Passes; pass++)
        {
            double predicted = pass == 0 ? part : smoothing * part;
            part = predicted + ((pass >= settings.FirstResolvingPass - 1 ? shape : window) * (1 - predicted));
        }

        return part;
    }

    private double Window(double frequency)
    {
        // The sum over a top hat of n pixels is closed: sin(n a / 2) / sin(a / 2).
        if (settings.Weighting == WindowWeighting.TopHat)
            return frequency < 1e-9 ? 1 : Math.Sin(Math.PI * settings.WindowPixels * frequency) / (settings.WindowPixels * Math.Sin(Math.PI * frequency));
        return Transform(weights, frequency);
    }

    private static double Transform(double[] weights, double frequency)
    {
        // Cosines of an arithmetic sequence by the recurrence cos((k + 1) a) = 2 cos(a) cos(k a) - cos((k - 1) a), from the middle out; the weight is symmetric.
        double angle = 2 * Math.PI * frequency;
        double twice = 2 * Math.Cos(angle);
        double before = Math.Cos(angle / 2);
        double here = before;
        double sum = 0;
        for (int i = weights.Length / 2; i < weights.Length; i++)
        {
            sum += weights[i] * here;
            (before, here) = (here, (twice * here) - before);
        }

        return 2 * sum;
    }

    private double Coarse(double frequency)
    {
        double angle = Math.PI * settings.CoarseWindowPixels * frequency;
        return angle < 1e-4 ? 1 : Math.Sin(angle) / angle;
    }
}
