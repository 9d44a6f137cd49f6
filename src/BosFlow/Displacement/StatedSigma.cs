using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>The standard uncertainty of a component of a vector.</summary>
/// <remarks>
/// sigma^2 = s1^2 c q(x) + r^2 + b^2. s1: that of the last step for independent residuals (<see cref="LeastSquaresMatch"/>). c: how much more the residuals scatter from block to block (<see cref="BlockScatter"/>), or for windows that are not sums of blocks what neighbouring pixels share (<see cref="SharedNoise"/>); it knows
/// what s1 does not, noise that pixels share, the noise that interpolation takes out of pixels but not out of the pattern, and what it makes of small dots. q: the passes before (<see cref="IterationNoise"/>), x the share of the
/// reference's noise in the squares of its gradients, k s^2 n / sum gx^2 = k s1^2 n (k the noise of a derivative over that of a residual, <see cref="ReferenceTexture.GradientNoise"/>, n pixels). r: what the passes leave of the coarse pass's error (<see cref="CoarseRemainder"/>).
/// b: the bias of interpolation for the dots of the reference (<see cref="InterpolationBias"/>).
/// Windows of half the side have an s1, c and q of their own, and what they miss of a steep displacement besides (<see cref="WindowSelection"/>).
/// </remarks>
internal sealed class StatedSigma
{
    private readonly float[] weight;
    private readonly IterationNoise iteration;
    private readonly IterationNoise ofHalf;
    private readonly IterationNoise ofShape;
    private readonly ShapeSolver? shape;
    private readonly double gradientNoise;

    /// <summary>Prepares what depends on the reference and the settings.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="windows">The reference's windows.</param>
    /// <param name="shape">The polynomials of its windows; null where they have none.</param>
    /// <param name="gradientNoise">Variance of the noise in a derivative of the reference over that of a residual (<see cref="ReferenceTexture.GradientNoise"/>).</param>
    /// <param name="biasAmplitude">Amplitude of the wave of the fraction of a pixel that stays in a displacement, px.</param>
    public StatedSigma(DisplacementSettings settings, ReferenceWindows windows, ShapeSolver? shape, double gradientNoise, double biasAmplitude)
    {
        weight = [.. windows.Weight.Select(value => (float)value)];
        this.shape = shape;
        iteration = new IterationNoise(settings with { Shape = WindowShape.Constant });
        ofShape = settings.Shape == WindowShape.Constant ? iteration : new IterationNoise(settings);
        ofHalf = settings.Windows == WindowSizing.Adaptive ? new IterationNoise(OfHalf(settings)) : iteration;
        this.gradientNoise = gradientNoise;
        SquaredBias = biasAmplitude * biasAmplitude / 2;
    }

    /// <summary>Mean square of the bias of interpolation over all fractions of a pixel, px^2.</summary>
    public double SquaredBias { get; }

    /// <summary>Standard uncertainty, px.</summary>
    /// <param name="node">The node.</param>
    /// <param name="step">That of the last step, px.</param>
    /// <param name="scatter">c.</param>
    /// <param name="isHalf">Whether the window has half the side.</param>
    /// <param name="order">Degree of the polynomial that was fitted; 0 for a shift.</param>
    /// <param name="beyondNoise">Square of what a half window is taken to miss, and variance of what is left of the coarse pass, px^2.</param>
    public float Of(int node, float step, float scatter, bool isHalf, byte order, double beyondNoise)
    {
        double variance = (double)step * step;
        double pixels = isHalf ? weight[node] / 4 : weight[node], ofShift = order == 0 ? variance : variance / shape!.VarianceRatio(node);
        double noiseShare = ofShift * pixels * gradientNoise;
        return (float)Math.Sqrt((variance * scatter * (isHalf ? ofHalf : order < 2 ? iteration : ofShape).Variance(noiseShare)) + beyondNoise + SquaredBias);
    }

    /// <summary>The same for neighbouring nodes of whole windows that were fitted with a shift.</summary>
    /// <param name="first">The first node.</param>
    /// <param name="steps">Standard uncertainties of the last step, px.</param>
    /// <param name="scatter">c of each.</param>
    /// <param name="beyondNoise">Variance of what is left of the coarse pass, px^2.</param>
    /// <param name="target">Standard uncertainties, px.</param>
    public void OfShifts(int first, ReadOnlySpan<float> steps, ReadOnlySpan<float> scatter, double beyondNoise, Span<float> target)
    {
        int lanes = Vector<float>.Count, i = 0;
        Vector<float> gain = new((float)gradientNoise), rest = new((float)(beyondNoise + SquaredBias));
        for (; i <= target.Length - lanes; i += lanes)
        {
            Vector<float> step = new(steps[i..]), variance = step * step;
            Vector.SquareRoot((variance * new Vector<float>(scatter[i..]) * iteration.Variance(variance * new Vector<float>(weight, first + i) * gain)) + rest).CopyTo(target[i..]);
        }

        for (; i < target.Length; i++)
            target[i] = Of(first + i, steps[i], scatter[i], isHalf: false, order: 0, beyondNoise);
    }

    // They begin with the last pass but one, and their predictor is not smoothed.
    private static DisplacementSettings OfHalf(DisplacementSettings settings) =>
        settings with { WindowPixels = settings.WindowPixels / 2, PredictorSmoothings = 0, Passes = Math.Min(settings.Passes, 2) };
}
