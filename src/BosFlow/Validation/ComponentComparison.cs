namespace BosFlow.Validation;

/// <summary>One component of a measured field against its truth.</summary>
/// <param name="RmsError">RMS of measured minus true value over the measured nodes.</param>
/// <param name="Peak">Largest magnitude of the true vector over the same nodes, same unit.</param>
/// <param name="Slope">Slope of the least-squares line of measured on true values, 1.</param>
/// <param name="CoverageOneSigma">Share of the errors within the stated sigma, 1; 0.683 for an honest sigma without bias.</param>
/// <param name="Coverage95">Share within 1.96 sigma, 1; 0.95 likewise.</param>
/// <param name="Count">Number of nodes compared.</param>
public sealed record ComponentComparison(double RmsError, double Peak, double Slope, double CoverageOneSigma, double Coverage95, int Count)
{
    /// <summary>RMS error in percent of the peak.</summary>
    public double PercentOfPeak => 100 * RmsError / Peak;

    /// <summary>Compares one component.</summary>
    /// <param name="measured">Measured values; NaN where not measured.</param>
    /// <param name="sigma">Stated standard uncertainties.</param>
    /// <param name="truth">True values of this component.</param>
    /// <param name="otherTruth">True values of the other component, for the peak of the vector.</param>
    public static ComponentComparison Of(float[] measured, float[] sigma, float[] truth, float[] otherTruth)
    {
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(sigma);
        ArgumentNullException.ThrowIfNull(truth);
        ArgumentNullException.ThrowIfNull(otherTruth);
        var errors = new ErrorStatistics();
        double peak = 0;
        for (int i = 0; i < measured.Length; i++)
        {
            errors.Add(measured[i], truth[i], sigma[i]);
            if (!float.IsNaN(measured[i]))
                peak = Math.Max(peak, Math.Sqrt(((double)truth[i] * truth[i]) + ((double)otherTruth[i] * otherTruth[i])));
        }

        return new ComponentComparison(errors.Rms, peak, LineFit.Of(truth, measured).Slope, errors.CoverageOneSigma, errors.Coverage95, errors.Count);
    }
}
