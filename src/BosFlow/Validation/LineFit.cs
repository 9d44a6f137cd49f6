namespace BosFlow.Validation;

/// <summary>Least-squares line measured = intercept + slope * truth.</summary>
/// <param name="Slope">Slope, 1; NaN where the truth is constant.</param>
/// <param name="Intercept">Intercept, unit of the values.</param>
public readonly record struct LineFit(double Slope, double Intercept)
{
    /// <summary>Fits the line; pairs with a NaN are left out.</summary>
    /// <param name="truth">True values.</param>
    /// <param name="measured">Measured values, same length.</param>
    public static LineFit Of(ReadOnlySpan<float> truth, ReadOnlySpan<float> measured)
    {
        double n = 0, meanX = 0, meanY = 0;
        for (int i = 0; i < truth.Length; i++)
        {
            if (float.IsNaN(truth[i]) || float.IsNaN(measured[i]))
                continue;
            n++;
            meanX += truth[i];
            meanY += measured[i];
        }

        meanX /= n;
        meanY /= n;
        double xx = 0, xy = 0;
        for (int i = 0; i < truth.Length; i++)
        {
            if (float.IsNaN(truth[i]) || float.IsNaN(measured[i]))
                continue;
            xx += (truth[i] - meanX) * (truth[i] - meanX);
            xy += (truth[i] - meanX) * (measured[i] - meanY);
        }

        double slope = xx > 0 ? xy / xx : double.NaN;
        return new LineFit(slope, meanY - (slope * meanX));
    }
}
