namespace BosFlow.TestKit;

/// <summary>A least-squares straight line: whether measured values have the sign and scale of the truth.</summary>
/// <param name="Slope">1 where the scale is right; negative where the sign is wrong.</param>
/// <param name="Intercept">Measured value where the truth is 0.</param>
public readonly record struct StraightLine(double Slope, double Intercept)
{
    /// <summary>Fits measured = Slope * truth + Intercept. Entries where either is NaN are left out.</summary>
    /// <param name="measured">Measured values.</param>
    /// <param name="truth">True values, same length.</param>
    /// <returns>The line; NaN where fewer than two different true values remain.</returns>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static StraightLine Fit(ReadOnlySpan<float> measured, ReadOnlySpan<double> truth)
    {
        if (measured.Length != truth.Length)
            throw new ArgumentException($"{measured.Length} measured values for {truth.Length} true ones.", nameof(measured));
        double count = 0, meanX = 0, meanY = 0, xx = 0, xy = 0;
        for (int i = 0; i < measured.Length; i++)
        {
            if (float.IsNaN(measured[i]) || double.IsNaN(truth[i]))
                continue;
            // Running means (Welford 1962, from memory) keep the sums free of cancellation.
            count++;
            double dx = truth[i] - meanX;
            meanX += dx / count;
            xx += dx * (truth[i] - meanX);
            meanY += (measured[i] - meanY) / count;
            xy += dx * (measured[i] - meanY);
        }

        double slope = xx > 0 ? xy / xx : double.NaN;
        return new StraightLine(slope, meanY - (slope * meanX));
    }
}
