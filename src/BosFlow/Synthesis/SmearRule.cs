using MathNet.Numerics.Integration;

namespace BosFlow.Synthesis;

/// <summary>Moments of an exposure whose weighted mean stands for the mean over all of it: Gauss-Legendre nodes.</summary>
/// <remarks>
/// A Gaussian dot that runs along L standard deviations needs about L nodes before the error falls faster than any power of their number: its Chebyshev
/// coefficients are exp(-L^2 / 16) I_n(L^2 / 16) (derived). L + 2 nodes, and 4 for each period of the fastest motion within the exposure, leave less than 1e-4 of
/// the dot's contrast; the tests compare with the closed form of a uniform smear.
/// </remarks>
internal static class SmearRule
{
    /// <summary>Offsets from the middle of the exposure and their weights, which add to 1.</summary>
    /// <param name="exposureSeconds">Exposure, s.</param>
    /// <param name="pathSigmas">Longest way of a dot within an exposure, in standard deviations of the dot.</param>
    /// <param name="highestHertz">Highest frequency of the motion, Hz.</param>
    public static IReadOnlyList<(double Seconds, double Weight)> Moments(double exposureSeconds, double pathSigmas, double highestHertz)
    {
        if (exposureSeconds == 0 || pathSigmas == 0)
            return [(0, 1)];
        var rule = new GaussLegendreRule(-exposureSeconds / 2, exposureSeconds / 2, 2 + (int)Math.Ceiling(pathSigmas + (4 * exposureSeconds * highestHertz)));
        return [.. Enumerable.Range(0, rule.Order).Select(i => (rule.Abscissas[i], rule.Weights[i] / exposureSeconds))];
    }
}
