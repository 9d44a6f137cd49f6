using BosFlow.Numerics.Robust;

namespace BosFlow.Pipeline;

/// <summary>Whether displacement scatters more where nothing flows than its sigmas say: the RMS of what remains over sigma.</summary>
/// <remarks>
/// A sigma follows from grey levels. What is no error of grey levels does not show in it: the blocks that a compressed video moves by quarters of a pixel, shake that the
/// model of the motion does not describe, air that shimmers. It shows where the truth is known to be zero. Multiplying sigmas by the ratio where it exceeds 1 is due to
/// R. T. Birge 1932, Phys. Rev. 40:207 (external over internal consistency; from memory). Values beyond four robust standard deviations are not noise and are left out, as from the noise floor.
/// </remarks>
internal static class BirgeRatio
{
    private const double Cut = 4;
    private const double FewestErrors = 8; // judgement: fewer say too little
    private const double ChanceErrors = 2; // standard errors that chance is allowed: one frame in forty

    /// <summary>The factor for the sigmas: the ratio where it exceeds 1 by more than chance, else 1.</summary>
    /// <param name="squares">Squares of what remains over sigma, of independent or overlapping windows; reordered.</param>
    /// <param name="vectorsPerError">Number of vectors that share one error because their windows overlap, 1 or more.</param>
    public static double Factor(Span<double> squares, double vectorsPerError)
    {
        if (squares.Length < FewestErrors * vectorsPerError)
            return 1;
        double limit = Cut * Cut * Quantiles.Median(squares) / Quantiles.MedianOfNormalSquares, sum = 0;
        int count = 0;
        foreach (double square in squares)
        {
            if (square > limit)
                continue;
            sum += square;
            count++;
        }

        // The relative standard error of the root of a mean of n squares is 1 / sqrt(2 n).
        double ratio = Math.Sqrt(sum / count), chance = 1 + (ChanceErrors * Math.Sqrt(vectorsPerError / (2 * count)));
        return ratio > chance ? ratio : 1;
    }
}
