using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>Low-pass of the reference's grey levels: what a noisy reference lets expect of them.</summary>
/// <remarks>
/// Least squares of (H - 1) sqrt(P) and H sqrt(n) over all waves, P the power of the pattern, n the variance of the reference's noise and H the filter (N. Wiener 1949, from memory). A match compares frames with these levels. In a picture without borders it would find the same with the raw ones, since
/// a derivative and what the filter takes away have nothing in common; in a window it would not, whose edges cut the noise of waves beyond the pattern (derived; windows of 32 px and dots of 5 px lose 3 % by it at 5 % noise).
/// H is a product of weights of pixels along each axis, those along x least squares with those along y given, and so in turn.
/// </remarks>
internal sealed class LevelFilter
{
    private const int Rounds = 4;
    private const int Weights = GradientFilter.Reach + 1;

    // Of the power of the longest waves: without any noise the weights are not determined.
    private const double LeastNoise = 1e-9;

    private readonly float[] alongX;
    private readonly float[] alongY;

    private LevelFilter(float[] alongX, float[] alongY)
    {
        this.alongX = alongX;
        this.alongY = alongY;
        NoiseGain = GradientFilter.NoiseGain(alongX) * GradientFilter.NoiseGain(alongY);
    }

    /// <summary>Weights of the pixels at -<see cref="GradientFilter.Reach"/> to Reach along x.</summary>
    public ReadOnlySpan<float> AlongX => alongX;

    /// <summary>The same along y.</summary>
    public ReadOnlySpan<float> AlongY => alongY;

    /// <summary>Variance of white noise of variance 1 behind the filter.</summary>
    public double NoiseGain { get; }

    /// <summary>The filter of a reference with the given spectra.</summary>
    /// <param name="alongX">The fine end of its spectrum along x.</param>
    /// <param name="alongY">The same along y.</param>
    /// <param name="noise">Variance of its noise, DN^2.</param>
    public static LevelFilter Of(SampledPattern alongX, SampledPattern alongY, double noise)
    {
        double power = SampledPattern.LongestPower(alongX, alongY);
        var waves = Matrix<double>.Build.Dense(WaveWeights.Count, Weights, (k, i) => i == 0 ? 1 : 2 * Math.Cos(WaveWeights.Frequency(k) * i));
        Vector<double> x = Power(alongX.Dot), y = Power(alongY.Dot), tapsX = Vector<double>.Build.Dense(Weights, i => i == 0 ? 1 : 0), tapsY = tapsX;
        for (int round = 0; round < Rounds; round++)
        {
            tapsX = Best(waves, x, y, waves * tapsY, Math.Max(noise / power, LeastNoise));
            tapsY = Best(waves, y, x, waves * tapsX, Math.Max(noise / power, LeastNoise));
        }

        return new LevelFilter(BothSides(tapsX), BothSides(tapsY));
    }

    /// <summary>Filters grey levels in place. Pixels that lack others around them, at the border too, keep their own.</summary>
    /// <param name="levels">Row-major.</param>
    /// <param name="known">1 where a pixel counts, else 0.</param>
    /// <param name="width">Pixels in a row.</param>
    public void Apply(float[] levels, ReadOnlySpan<float> known, int width)
    {
        const int Reach = GradientFilter.Reach;
        float[] filtered = [.. levels], around = known.ToArray(), all = [.. Enumerable.Repeat(1f, (2 * Reach) + 1)];
        PlaneFilter.Run(filtered, width, alongX, alongY);
        PlaneFilter.Run(around, width, all, all);
        int height = levels.Length / width;
        for (int y = Reach; y < height - Reach; y++)
        {
            for (int i = (y * width) + Reach; i < ((y + 1) * width) - Reach; i++)
            {
                if (around[i] > (all.Length * all.Length) - 0.5f)
                    levels[i] = filtered[i];
            }
        }
    }

    // Over that of the longest waves.
    private static Vector<double> Power(DotPower dot) => Vector<double>.Build.Dense(WaveWeights.Count, k => dot.At(WaveWeights.Frequency(k)));

    private static Vector<double> Best(Matrix<double> waves, Vector<double> along, Vector<double> across, Vector<double> acrossResponse, double noise)
    {
        Vector<double> squares = acrossResponse.PointwiseMultiply(acrossResponse);
        Vector<double> scatter = (along * (squares * across)) + (noise * squares.Sum()), told = along * (acrossResponse * across);
        return (waves.Transpose() * Matrix<double>.Build.DiagonalOfDiagonalVector(scatter) * waves).Solve(waves.Transpose() * told);
    }

    private static float[] BothSides(Vector<double> taps) => [.. Enumerable.Range(-GradientFilter.Reach, (2 * GradientFilter.Reach) + 1).Select(i => (float)taps[Math.Abs(i)])];
}
