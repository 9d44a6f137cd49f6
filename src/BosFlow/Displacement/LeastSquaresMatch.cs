using BosFlow.Numerics.LinearAlgebra;

namespace BosFlow.Displacement;

/// <summary>Least-squares matching of one window from its sums: shift, gain and offset in one linear step.</summary>
/// <remarks>
/// With the frame deformed by the predictor d, its grey levels are G(x) = a A(x + d - d*) + b, A the reference, d* the true
/// displacement. To first order G = p . grad A + a A + b with p = a (d - d*), so d* - d = -p / a.
/// One-sigma of this step alone from the residual: cov(p) = s^2 N^-1, s^2 = SSE / (n - 4), N the normal matrix; for weighted windows times
/// sum w^2 / sum w. What several passes make of it is <see cref="StatedSigma"/>.
/// Source of the normal equations: Lucas and Kanade 1981, Proc. IJCAI, 674 (method; formulas derived here).
/// </remarks>
internal static class LeastSquaresMatch
{
    /// <summary>Dynamic sums of a window: G gx, G gy, G A, G, G^2, all with the window's weight.</summary>
    public const int Terms = 5;

    // The gain of a window that matches nothing is near zero: below this share of the expected one there is no solution.
    internal const double LeastGain = 0.05;

    public static bool TrySolve(
        ReadOnlySpan<double> inverse, ReadOnlySpan<double> sums, double weight, double squaredWeightRatio, out MatchedWindow match)
    {
        Span<double> p = stackalloc double[4];
        double explained = Fit(inverse, sums, p);
        double variation = sums[4] - (sums[3] * sums[3] / weight);
        return TryResult(inverse, p, p[2], sums[4] - explained, variation, weight, squaredWeightRatio, out match);
    }

    /// <summary>The same from sums of the difference e = G - A, which keep digits that those of G lose.</summary>
    /// <param name="inverse">Inverse of the normal matrix.</param>
    /// <param name="sums">Sums of e gx, e gy, e A, e, e^2.</param>
    /// <param name="squaredLevels">Sum of A^2.</param>
    /// <param name="levels">Sum of A.</param>
    /// <param name="weight">Number of pixels.</param>
    /// <param name="match">The result.</param>
    public static bool TrySolveDifference(
        ReadOnlySpan<double> inverse, ReadOnlySpan<double> sums, double squaredLevels, double levels, double weight, out MatchedWindow match)
    {
        Span<double> p = stackalloc double[4];
        double explained = Fit(inverse, sums, p);
        double level = sums[3] + levels;
        double variation = sums[4] + (2 * sums[2]) + squaredLevels - (level * level / weight);
        return TryResult(inverse, p, 1 + p[2], sums[4] - explained, variation, weight, 1, out match);
    }

    private static double Fit(ReadOnlySpan<double> inverse, ReadOnlySpan<double> sums, Span<double> p)
    {
        SymmetricInverse4.Multiply(inverse, sums[..4], p);
        return (p[0] * sums[0]) + (p[1] * sums[1]) + (p[2] * sums[2]) + (p[3] * sums[3]);
    }

    private static bool TryResult(
        ReadOnlySpan<double> inverse, ReadOnlySpan<double> p, double gain, double unexplained, double variation, double weight, double squaredWeightRatio, out MatchedWindow match)
    {
        if (!(variation > 0) || !(gain > LeastGain))
        {
            match = default;
            return false;
        }

        double residual = Math.Max(0, unexplained);
        double variance = residual / Math.Max(1, weight - 4) * squaredWeightRatio;
        double correlation = Math.Sqrt(Math.Max(0, 1 - (residual / variation)));
        match = new MatchedWindow(
            -p[0] / gain, -p[1] / gain, Math.Sqrt(variance * inverse[0]) / gain, Math.Sqrt(variance * inverse[2]) / gain, correlation, gain, p[3]);
        return true;
    }
}
