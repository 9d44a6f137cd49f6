using System.Collections.Concurrent;
using BosFlow.Numerics.Abel;

namespace BosFlow.Density;

/// <summary>The inversions of one kind for every number of radii; those that do not depend on data are made once. Safe to use from several threads.</summary>
/// <param name="method">Which kind.</param>
internal sealed class SlopeInversions(AbelMethod method)
{
    // Samples closer than the nodes, or in a bridged gap, are sums of the same few errors, and no fit can weigh sums without any error: one percent of each variance is taken as the sample's own.
    private const double Common = 0.99;
    private readonly ConcurrentDictionary<int, SlopeInversion> made = new();

    /// <summary>The inversion for measured slopes.</summary>
    /// <param name="slope">Slopes at the radii 0, 1, 2, ... steps.</param>
    /// <param name="covariance">Their covariance, row-major.</param>
    public SlopeInversion For(double[] slope, double[] covariance) =>
        method == AbelMethod.Smoothed ? Smoothed(slope, covariance) : Plain(slope.Length);

    private SlopeInversion Plain(int count) => made.GetOrAdd(count, n => new SlopeInversion(Operator(n).Matrix.ToArray(), n));

    private AbelOperator Operator(int count) => method switch
    {
        AbelMethod.TwoPoint => AbelOperators.TwoPoint(count),
        AbelMethod.ThreePoint => AbelOperators.IntegratedThreePoint(count),
        _ => AbelOperators.CubicSlope(count),
    };

    private static SlopeInversion Smoothed(double[] slope, double[] covariance)
    {
        int count = slope.Length;
        double[] sigma = [.. Enumerable.Range(0, count).Select(i => Math.Sqrt(covariance[(i * count) + i]))];
        double[] correlation = new double[count * count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
                correlation[(i * count) + j] = i == j ? 1 : sigma[i] > 0 && sigma[j] > 0 ? Common * covariance[(i * count) + j] / (sigma[i] * sigma[j]) : 0;
        }

        double[] radii = [.. Enumerable.Range(0, count).Select(i => (double)i)];
        RadialFit fit = RadialProfileFitter.Fit(new RadialFitProblem { Position = radii, Slope = slope, Sigma = sigma, Correlation = correlation, OuterRadius = count }, radii);
        return new SlopeInversion(fit.Matrix.ToArray(), count);
    }
}
