using System.Numerics;

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
/// |transfer of the window|^2, node spacing included (derived; docs/validation compares it with the engine). Both axes multiply in A, S and P. Where the last passes have a shape of second degree, their A is the one of <see cref="ShapeKernel"/>, their errors have its weights, and the errors of the passes before go along with them by the spectrum that both weights share. For windows of 32 px and no noise of the gradients
/// the root is 1.08 for nodes 16 px apart and two smoothings, 1.33 for 8 px and one, 1.23 for 8 px and two.
/// </para>
/// </remarks>
internal sealed class IterationNoise
{
    /// <summary>Largest share of noise in the gradients that is told from texture.</summary>
    public const double LargestShare = 0.5;

    private const int Shares = 10;
    private readonly double[] factors = new double[Shares + 1];

    /// <summary>Computes the factors of some settings.</summary>
    /// <param name="settings">Window, weighting, spacing, passes, smoothings.</param>
    public IterationNoise(DisplacementSettings settings)
    {
        var waves = new NodeWaves(settings);
        for (int share = 0; share <= Shares; share++)
            factors[share] = waves.Factor(1 - (LargestShare * share / Shares));
    }

    /// <summary>The same where the gradients hold no noise.</summary>
    /// <param name="settings">Window, weighting, spacing, passes, smoothings.</param>
    public static double OfClearGradients(DisplacementSettings settings) => new NodeWaves(settings).Factor(1);

    /// <summary>Variance of the result over that of the last step.</summary>
    /// <param name="noiseShare">Share of the reference's noise in the squares of its gradients, 0 to 1; beyond a half it is taken as a half.</param>
    public double Variance(double noiseShare)
    {
        double place = Math.Clamp(noiseShare / LargestShare, 0, 1) * Shares;
        int before = Math.Min((int)place, Shares - 1);
        return factors[before] + ((factors[before + 1] - factors[before]) * (place - before));
    }

    /// <summary>The same for several shares side by side, none below 0.</summary>
    public Vector<float> Variance(Vector<float> noiseShare)
    {
        // Straight lines that meet: every one adds the change of slope beyond its beginning.
        Vector<float> place = Vector.Min(noiseShare * (float)(Shares / LargestShare), new Vector<float>(Shares)), sum = new((float)factors[0]);
        double slope = 0;
        for (int i = 0; i < Shares; i++)
        {
            double next = factors[i + 1] - factors[i];
            sum += (float)(next - slope) * Vector.Max(place - new Vector<float>(i), Vector<float>.Zero);
            slope = next;
        }

        return sum;
    }
}
