namespace BosFlow.Optics;

/// <summary>Refractive index of pure gases by wavelength, as published for one state of the gas, and the Gladstone-Dale coefficient that follows.</summary>
/// <remarks>
/// Sources: nitrogen, E. R. Peck and B. N. Khanna 1966, J. Opt. Soc. Am. 56, 1059; oxygen, J. Zhang, Z. H. Lu and L. J. Wang 2008, Appl. Opt. 47, 3143; argon,
/// E. R. Peck and D. J. Fisher 1964, J. Opt. Soc. Am. 54, 1362; carbon dioxide, J. G. Old, K. L. Gentili and E. R. Peck 1971, J. Opt. Soc. Am. 61, 89; water vapour,
/// <see cref="AirIndex"/>; air, <see cref="GladstoneDale"/>; all others, <see cref="KnownGas"/>.
/// K of n - 1 = K rho hardly depends on the state of a gas, so the state of the measurement gives it. The density of that state is p M / (Z R T); the compressibility Z = 1 + B p / (R T) takes the second virial
/// coefficient B from handbook tables (N2 -10.3, O2 -17, Ar -21.5, CO2 -151 cm3/mol at these temperatures; quoted from memory). It matters: without it the mixture that is dry air comes out
/// 0.05 % above Ciddor's equations, with it within 0.01 %, which the tests check. Below 468 nm the formulas of nitrogen and argon are
/// continued beyond their data.
/// </remarks>
public static class GasDispersion
{
    /// <summary>Shortest wavelength, m.</summary>
    public const double ShortestWavelengthMetres = 350e-9;

    /// <summary>Longest wavelength, m.</summary>
    public const double LongestWavelengthMetres = 1690e-9;

    private const double Atmosphere = 101325;

    private static readonly Formula[] Table =
    [
        new("nitrogen", s2 => 6.8552e-5 + (3.243157e-2 / (144 - s2)), 273.15, -10.3e-6, 0.001, "Peck and Khanna 1966"),
        new("oxygen", s2 => 1.181494e-4 + (9.708931e-3 / (75.4 - s2)), 293.15, -17e-6, 0.001, "Zhang, Lu and Wang 2008"),
        new("argon", s2 => 6.7867e-5 + (3.0182943e-2 / (144 - s2)), 273.15, -21.5e-6, 0.001, "Peck and Fisher 1964"),
        new("carbon dioxide", CarbonDioxide, 273.15, -151e-6, 0.003, "Old, Gentili and Peck 1971"),
    ];

    /// <summary>n - 1 of a gas at the state of its formula: 101325 Pa, and 0 degC (nitrogen, argon, carbon dioxide) or 20 degC (oxygen).</summary>
    /// <param name="gas">Name as in <see cref="KnownGas"/>.</param>
    /// <param name="wavelengthMetres">Wavelength, m, 350 nm to 1690 nm.</param>
    /// <returns>n - 1; null for a gas without a formula.</returns>
    public static double? Refractivity(string gas, double wavelengthMetres) =>
        Array.Find(Table, row => row.Gas == gas)?.Refractivity(InverseSquareMicrometres(wavelengthMetres));

    /// <summary>The Gladstone-Dale coefficient of a pure gas at a wavelength.</summary>
    /// <param name="gas">The gas; one without a formula has the value of the table for visible light at every wavelength.</param>
    /// <param name="wavelengthMetres">Wavelength, m, in the range of the formula.</param>
    /// <returns>Coefficient, uncertainty and source.</returns>
    /// <exception cref="ConfigurationException">The wavelength lies outside the range of the gas's formula.</exception>
    public static GladstoneDaleValue Coefficient(KnownGas gas, double wavelengthMetres)
    {
        ArgumentNullException.ThrowIfNull(gas);
        if (gas.Name == "air")
            return new GladstoneDaleValue(GladstoneDale.Air(wavelengthMetres), 0.0005, "table for air of Merzkirch 1987");
        if (Array.Find(Table, row => row.Gas == gas.Name) is { } formula)
        {
            RequireRange(gas, wavelengthMetres);
            double compressibility = 1 + (formula.SecondVirial * Atmosphere / (IdealGas.GasConstant * formula.Temperature));
            double density = IdealGas.Density(Atmosphere, gas.MolarMassKgPerMol, formula.Temperature) / compressibility;
            return new GladstoneDaleValue(formula.Refractivity(InverseSquareMicrometres(wavelengthMetres)) / density, formula.RelativeSigma, formula.Source);
        }

        if (gas.Name == "water vapour")
        {
            RequireRange(gas, wavelengthMetres);
            return new GladstoneDaleValue(AirIndex.VapourGladstoneDale(wavelengthMetres), 0.005, "water vapour of Ciddor 1996");
        }

        return new GladstoneDaleValue(gas.GladstoneDaleM3PerKg, TableSigma(gas.Name), $"table of Merzkirch 1987 for {gas.Name}, without dispersion");
    }

    // Helium hardly disperses. For the others 2 % covers three digits and the missing dispersion; published indices of SF6 scatter by more.
    private static double TableSigma(string gas) => gas switch { "helium" => 0.005, "sulphur hexafluoride" => 0.04, _ => 0.02 };

    private static double CarbonDioxide(double s2) =>
        (1.54489e-6 / (0.0584738 - s2)) + (0.083091927 / (210.9241 - s2)) + (0.0028764190 / (60.122959 - s2));

    private static double InverseSquareMicrometres(double metres) => 1 / (metres * metres * 1e12);

    private static void RequireRange(KnownGas gas, double wavelengthMetres)
    {
        if (!(wavelengthMetres >= ShortestWavelengthMetres && wavelengthMetres <= LongestWavelengthMetres))
        {
            throw new ConfigurationException(
            [
                FormattableString.Invariant($"The wavelength {wavelengthMetres * 1e9:G6} nm is outside the formula for {gas.Name}, 350 nm to 1690 nm; give the effective wavelength of the camera (550 nm for a colour camera) or the Gladstone-Dale coefficient."),
            ]);
        }
    }

    /// <summary>A dispersion formula, n - 1 of 1 / wavelength squared in um-2, at 101325 Pa.</summary>
    private sealed record Formula(string Gas, Func<double, double> Refractivity, double Temperature, double SecondVirial, double RelativeSigma, string Source);
}
