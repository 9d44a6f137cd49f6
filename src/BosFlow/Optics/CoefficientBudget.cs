using System.Globalization;

namespace BosFlow.Optics;

/// <summary>The Gladstone-Dale coefficient that a case uses for its flow, and what its uncertainty is made of.</summary>
/// <param name="M3PerKg">K, m3/kg.</param>
/// <param name="RelativeSigma">Relative standard uncertainty, 1.</param>
/// <param name="Source">Both in words.</param>
internal sealed record CoefficientBudget(double M3PerKg, double RelativeSigma, string Source)
{
    // What published values of one gas scatter by at a wavelength that is only roughly known (a judgement, no source).
    private const double GivenWithoutSigma = 0.01;

    /// <summary>The coefficient of checked settings.</summary>
    /// <param name="settings">Checked settings.</param>
    /// <param name="flow">The gas of the flow; null where only its coefficient is known.</param>
    public static CoefficientBudget Of(GasSettings settings, GasMixture? flow)
    {
        if (settings.GladstoneDaleM3PerKg is double given)
        {
            return settings.GladstoneDaleRelativeSigma is double stated
                ? new CoefficientBudget(given, stated, $"given in the case, with {Percent(stated)}")
                : new CoefficientBudget(given, GivenWithoutSigma, $"given in the case without its uncertainty; {Percent(GivenWithoutSigma)} assumed");
        }

        GladstoneDaleValue published = flow!.GladstoneDaleAt(settings.WavelengthMetres);
        if (settings.GladstoneDaleRelativeSigma is double sigma)
            return new CoefficientBudget(published.M3PerKg, sigma, $"{published.Source}; uncertainty given in the case, {Percent(sigma)}");
        bool burnt = GasModel.IsExhaust(settings);
        double own = burnt ? Quadrature(published.RelativeSigma, CombustionProducts.ModelRelativeSigma) : published.RelativeSigma;
        double wavelength = WavelengthShare(settings, flow, published.M3PerKg);
        string ownWords = $"{Percent(own)}{(burnt ? " with the model of the combustion" : string.Empty)}";
        string waveWords = FormattableString.Invariant($"{settings.WavelengthMetres * 1e9:G5} nm known to {settings.WavelengthSigmaMetres * 1e9:G3} nm");
        return new CoefficientBudget(
            published.M3PerKg,
            Quadrature(own, wavelength),
            $"{published.Source} ({ownWords}); effective wavelength {waveWords} ({Percent(wavelength)})");
    }

    /// <summary>Relative uncertainty of K from the effective wavelength: its slope over plus and minus one sigma, kept inside the table for air.</summary>
    private static double WavelengthShare(GasSettings settings, GasMixture flow, double coefficient)
    {
        double sigma = settings.WavelengthSigmaMetres;
        // Half a nanometre at least, so that a laser's line still has a slope to multiply.
        double step = Math.Max(sigma, 0.5e-9);
        double low = Math.Max(settings.WavelengthMetres - step, Math.Min(settings.WavelengthMetres, GladstoneDale.ShortestWavelengthMetres));
        double high = Math.Min(settings.WavelengthMetres + step, Math.Max(settings.WavelengthMetres, GladstoneDale.LongestWavelengthMetres));
        double change = flow.GladstoneDaleAt(high).M3PerKg - flow.GladstoneDaleAt(low).M3PerKg;
        return Math.Abs(change) / (high - low) * sigma / coefficient;
    }

    private static double Quadrature(double one, double other) => Math.Sqrt((one * one) + (other * other));

    private static string Percent(double relative) => (100 * relative).ToString("G2", CultureInfo.InvariantCulture) + " %";
}
