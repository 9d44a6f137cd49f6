namespace BosFlow.Displacement;

/// <summary>How much of a short wave of displacement the windows miss.</summary>
public static class WindowResponse
{
    /// <summary>
    /// Factor c of the part of a displacement u that is missing in what is measured, c D D u, D being the second difference of neighbouring nodes summed over both axes.
    /// </summary>
    /// <param name="settings">Window, weighting, smoothings of the predictor.</param>
    /// <param name="spacingPixels">Distance of neighbouring vectors, px.</param>
    /// <returns>1; 0 where the predictor is not smoothed, and for quadratic windows.</returns>
    /// <remarks>
    /// One pass adds to the smoothed predictor S u what the window, which averages with response R, finds missing: u' = S u + R (u_true - S u), which settles at
    /// R / (1 - (1 - R) S). For long waves 1 - R = m2 k^2 / 2 (m2 second moment of the window's weight, W^2 / 12 for the top hat) and
    /// 1 - S = n h^2 k^2 / 4 (n binomial smoothings on nodes h apart), so that n m2 h^2 k^4 / 8 of a wave is missing (derived; docs/validation shows 7 % at three windows of 32 px,
    /// where this gives 8 %). A quadratic window misses nothing below the fourth power itself, and of what the predictor misses only that part: the sixth power of k is missing first, and the factor is 0.
    /// </remarks>
    public static double MissingPerFourthDifference(DisplacementSettings settings, double spacingPixels)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.Shape == WindowShape.Quadratic)
            return 0;
        ReadOnlySpan<double> weights = WindowOverlap.Weights(settings.WindowPixels, settings.Weighting);
        double centre = (weights.Length - 1) / 2.0;
        double sum = 0;
        double moment = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            sum += weights[i];
            moment += weights[i] * (i - centre) * (i - centre);
        }

        return settings.PredictorSmoothings * (moment / sum) / (8 * spacingPixels * spacingPixels);
    }
}
