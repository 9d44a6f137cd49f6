namespace BosFlow.Numerics.Abel;

/// <summary>Finds the strength of smoothing that a criterion asks for.</summary>
internal static class StrengthSearch
{
    // Strengths relative to the largest eigenvalue: below, rounding decides; above, nothing but the smoothest profile is left.
    private const double Weakest = 1e-13;
    private const double Strongest = 10;
    private const int PerDecade = 8;

    // Degrees of freedom of the prior of the sigmas' scale: known to about 1 / sqrt(2 * 20) = 16 %.
    private const double Trust = 20;

    public static double Find(SmoothingFilter filter, StrengthChoice choice)
    {
        double low = Math.Log(Weakest * filter.LargestEigenvalue), high = Math.Log(Strongest * filter.LargestEigenvalue);
        return Math.Exp(choice switch
        {
            StrengthChoice.Discrepancy => Bisect(filter, low, high),
            StrengthChoice.CrossValidation => Minimise(logarithm => CrossValidation(filter, logarithm), low, high),
            _ => Minimise(logarithm => Unlikelihood(filter, logarithm), low, high),
        });
    }

    // Minus twice the logarithm of the likelihood, up to a constant. The square of the sigmas' common scale has a scaled inverse chi-squared prior about 1:
    // a few slopes cannot tell detail from noise of unknown size (and would take all of it for noise), many can.
    private static double Unlikelihood(SmoothingFilter filter, double logarithm)
    {
        double strength = Math.Exp(logarithm);
        return ((filter.Count + Trust) * Math.Log(1 + (filter.PenalisedSquares(strength) / Trust))) - filter.LogDeterminant(strength);
    }

    private static double CrossValidation(SmoothingFilter filter, double logarithm)
    {
        double strength = Math.Exp(logarithm);
        double excess = filter.Count - filter.EffectiveParameters(strength);
        // With hardly an excess of data the criterion is 0 over 0.
        return excess > 0.01 * filter.Count ? filter.Count * filter.ResidualSquares(strength) / (excess * excess) : double.PositiveInfinity;
    }

    private static double Minimise(Func<double, double> criterion, double low, double high)
    {
        double step = Math.Log(10) / PerDecade, best = high, least = double.PositiveInfinity;
        for (double logarithm = high; logarithm >= low; logarithm -= step)
        {
            double value = criterion(logarithm);
            if (value < least)
                (best, least) = (logarithm, value);
        }

        // Golden section between the neighbours of the best.
        const double Golden = 0.6180339887498949;
        double from = best - step, to = best + step;
        for (int i = 0; i < 20; i++)
        {
            double left = to - (Golden * (to - from)), right = from + (Golden * (to - from));
            if (criterion(left) < criterion(right))
                to = right;
            else
                from = left;
        }

        return (from + to) / 2;
    }

    // Residuals grow with the strength. Outside of the range its end is taken; the fit's own residual then shows it.
    private static double Bisect(SmoothingFilter filter, double low, double high)
    {
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (filter.ResidualSquares(Math.Exp(middle)) < filter.Count)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }
}
