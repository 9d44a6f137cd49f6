using BosFlow.Numerics.Interpolation;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>How much more the sums of windows scatter than those of their blocks tell, since neighbouring pixels share noise: that of the reference in filtered grey levels, that of the frame where it is interpolated.</summary>
/// <remarks>
/// A match sums h e: h the filtered derivative of the reference, e its residual, what is wrong in the levels (<see cref="LevelFilter"/>) and the frame's noise. Of independent h and e the product has the covariance g l, g and l their own; the sum over a square of
/// the side a has the variance a^2 times the sum over all lags of g l (1 - |x| / a) (1 - |y| / a). With P the power of the pattern, n the variance of the reference's noise and H the filter of levels, l is the transform of n H^2 + P (1 - H)^2 and of the frame's noise as interpolation leaves it (derived; docs/validation compares sigma with true errors).
/// </remarks>
internal sealed class SharedNoise
{
    // What is told of dots reaches no farther: the filters take 8 px to either side.
    private const int Lags = 17;

    private readonly Matrix<double> shared;

    private SharedNoise(Matrix<double> shared) => this.shared = shared;

    /// <summary>For a reference and its filter of derivatives.</summary>
    /// <param name="alongX">The fine end of its spectrum along x.</param>
    /// <param name="alongY">The same along y.</param>
    /// <param name="filter">Filter of the derivatives.</param>
    /// <param name="levels">Filter of the grey levels.</param>
    /// <param name="noise">Variance of its noise, DN^2.</param>
    /// <param name="conditions">How frames are matched with it; they have the noise of which it is a mean.</param>
    public static SharedNoise Of(SampledPattern alongX, SampledPattern alongY, GradientFilter filter, LevelFilter levels, double noise, MatchConditions conditions)
    {
        double height = SampledPattern.LongestPower(alongX, alongY);
        Matrix<double> Waves(Func<double, double, double> value) => Matrix<double>.Build.Dense(WaveWeights.Count, WaveWeights.Count, (j, i) => value(WaveWeights.Frequency(i), WaveWeights.Frequency(j)));
        Matrix<double> power = Waves((x, y) => height * alongX.Dot.At(x) * alongY.Dot.At(y));
        Matrix<double> weights = Waves((x, y) => Math.Pow(GradientFilter.Response(filter.AlongX, x) * GradientFilter.Response(filter.AlongY, y), 2));
        Matrix<double> squares = Waves((x, y) => Math.Pow(SplineGradient.Response(x), 2) + Math.Pow(SplineGradient.Response(y), 2));
        Matrix<double> ofFrame = Waves((x, y) => conditions.Frames * noise * WaveWeights.NoisePower(conditions.Interpolation, x) * WaveWeights.NoisePower(conditions.Interpolation, y));
        Matrix<double> derivative = Covariance(weights.PointwiseMultiply(squares).PointwiseMultiply(power + noise));
        Matrix<double> kept = Waves((x, y) => GradientFilter.Response(levels.AlongX, x) * GradientFilter.Response(levels.AlongY, y));
        Matrix<double> wrong = (noise * kept.PointwisePower(2)) + power.PointwiseMultiply((1 - kept).PointwisePower(2));
        return new SharedNoise(derivative.PointwiseMultiply(Covariance(wrong + ofFrame)));
    }

    /// <summary>Variance of a window's sum over that which its blocks tell, at least 1.</summary>
    /// <param name="blockSide">Side of a block, px.</param>
    /// <param name="windowSide">Side of a window, px.</param>
    public double Factor(int blockSide, int windowSide)
    {
        double ofBlock = Sum(blockSide), ofWindow = Sum(windowSide);
        return ofBlock > 0 ? Math.Max(1, ofWindow / ofBlock) : 1;
    }

    private static Matrix<double> Covariance(Matrix<double> waves)
    {
        var cosines = Matrix<double>.Build.Dense(Lags, WaveWeights.Count, (lag, k) => Math.Cos(WaveWeights.Frequency(k) * lag) / WaveWeights.Count);
        return cosines * waves * cosines.Transpose();
    }

    private double Sum(int side)
    {
        double Share(int lag) => lag >= side ? 0 : (lag == 0 ? 1 : 2) * (1 - ((double)lag / side));
        double sum = 0;
        for (int j = 0; j < Lags; j++)
        {
            for (int i = 0; i < Lags; i++)
                sum += Share(i) * Share(j) * shared[j, i];
        }

        return sum;
    }
}
