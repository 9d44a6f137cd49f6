namespace BosFlow.Optics;

/// <summary>Phase refractive index of moist air after Ciddor, with Birch and Downs's shorter formula as an independent check.</summary>
/// <remarks>
/// Sources: P. E. Ciddor 1996, Appl. Opt. 35, 1566-1573, doi 10.1364/AO.35.001566, standard uncertainty 2 to 5 parts in 1e8;
/// K. P. Birch and M. J. Downs 1993, Metrologia 30, 155, with the correction of 1994, Metrologia 31, 315.
/// </remarks>
public static class AirIndex
{
    // Molar gas constant of the paper (CODATA 1986): kept, because the paper's densities were fitted with it.
    private const double GasConstant = 8.314510;
    private const double WaterMolarMass = 0.018015;
    private const double ZeroCelsius = 273.15;

    /// <summary>Whether Ciddor's formula is stated to hold: 300 to 1690 nm, -40 to 100 degC, 80 to 120 kPa.</summary>
    /// <param name="wavelengthMetres">Vacuum wavelength, m.</param>
    /// <param name="temperatureKelvin">Temperature, K.</param>
    /// <param name="pressurePascal">Total pressure, Pa.</param>
    public static bool IsInRange(double wavelengthMetres, double temperatureKelvin, double pressurePascal) =>
        wavelengthMetres is >= 300e-9 and <= 1690e-9
        && temperatureKelvin is >= 233.15 and <= 373.15
        && pressurePascal is >= 80e3 and <= 120e3;

    /// <summary>Refractive index of air by Ciddor's equations.</summary>
    /// <param name="wavelengthMetres">Vacuum wavelength, m, 300 to 1690 nm.</param>
    /// <param name="temperatureKelvin">Temperature, K, 233.15 to 373.15.</param>
    /// <param name="pressurePascal">Total pressure, Pa, 80 to 120 kPa (a little outside it degrades slowly).</param>
    /// <param name="vapourMoleFraction">Mole fraction of water vapour, 0 to 1.</param>
    /// <param name="carbonDioxidePartsPerMillion">Mole fraction of CO2, ppm, 0 to 2000.</param>
    /// <returns>n, 1.</returns>
    public static double Ciddor(double wavelengthMetres, double temperatureKelvin, double pressurePascal, double vapourMoleFraction = 0, double carbonDioxidePartsPerMillion = 450)
    {
        double s2 = 1 / (wavelengthMetres * wavelengthMetres * 1e12);
        double standardAir = 1e-8 * ((5792105 / (238.0185 - s2)) + (167917 / (57.362 - s2)));
        double dryAir = standardAir * (1 + (0.534e-6 * (carbonDioxidePartsPerMillion - 450)));
        double vapour = VapourRefractivity(s2);
        double dryMolarMass = 1e-3 * (28.9635 + (12.011e-6 * (carbonDioxidePartsPerMillion - 400)));

        double dryStandardDensity = Density(101325, 288.15, 0, dryMolarMass);
        double vapourStandardDensity = Density(1333, 293.15, 1, WaterMolarMass);
        double mole = Density(pressurePascal, temperatureKelvin, vapourMoleFraction, 1);
        double dryDensity = mole * dryMolarMass * (1 - vapourMoleFraction);
        double vapourDensity = mole * WaterMolarMass * vapourMoleFraction;
        return 1 + (dryDensity / dryStandardDensity * dryAir) + (vapourDensity / vapourStandardDensity * vapour);
    }

    /// <summary>Gladstone-Dale coefficient of water vapour in Ciddor's equations: its index over its density at 20 degC and 1333 Pa.</summary>
    /// <param name="wavelengthMetres">Vacuum wavelength, m, 300 to 1690 nm.</param>
    /// <returns>K, m3/kg.</returns>
    /// <remarks>The equations add dry air and vapour by their densities, so they are the mixture rule K = sum of Y K with this value for the vapour.</remarks>
    public static double VapourGladstoneDale(double wavelengthMetres) =>
        VapourRefractivity(1 / (wavelengthMetres * wavelengthMetres * 1e12)) / Density(1333, 293.15, 1, WaterMolarMass);

    /// <summary>Mole fraction of water vapour of air at a relative humidity (Ciddor 1996, appendix A; over water above 0 degC, over ice below).</summary>
    /// <param name="temperatureKelvin">Temperature, K.</param>
    /// <param name="pressurePascal">Total pressure, Pa.</param>
    /// <param name="relativeHumidity">Relative humidity, 0 to 1.</param>
    /// <returns>Mole fraction, 1.</returns>
    public static double VapourMoleFraction(double temperatureKelvin, double pressurePascal, double relativeHumidity)
    {
        double t = temperatureKelvin;
        double celsius = t - ZeroCelsius;
        double saturation = celsius >= 0
            ? Math.Exp((1.2378847e-5 * t * t) - (1.9121316e-2 * t) + 33.93711047 - (6343.1645 / t))
            : Math.Pow(10, (-2663.5 / t) + 12.537);
        double enhancement = 1.00062 + (3.14e-8 * pressurePascal) + (5.6e-7 * celsius * celsius);
        return enhancement * relativeHumidity * saturation / pressurePascal;
    }

    /// <summary>Refractive index of air by Birch and Downs's updated formula (CO2 450 ppm).</summary>
    /// <param name="wavelengthMetres">Vacuum wavelength, m, 350 to 650 nm.</param>
    /// <param name="temperatureKelvin">Temperature, K, near room temperature.</param>
    /// <param name="pressurePascal">Total pressure, Pa.</param>
    /// <param name="vapourPressurePascal">Partial pressure of water vapour, Pa.</param>
    /// <returns>n, 1.</returns>
    public static double BirchDowns(double wavelengthMetres, double temperatureKelvin, double pressurePascal, double vapourPressurePascal = 0)
    {
        double s2 = 1 / (wavelengthMetres * wavelengthMetres * 1e12);
        double celsius = temperatureKelvin - ZeroCelsius;
        double standard = 1e-8 * (8342.54 + (2406147 / (130 - s2)) + (15998 / (38.9 - s2)));
        double dry = pressurePascal * standard / 96095.43
            * (1 + (1e-8 * (0.601 - (0.00972 * celsius)) * pressurePascal)) / (1 + (0.0036610 * celsius));
        return 1 + dry - (vapourPressurePascal * (3.7345 - (0.0401 * s2)) * 1e-10);
    }

    /// <summary>n - 1 of pure water vapour at 20 degC and 1333 Pa (Ciddor 1996, eq. 3).</summary>
    private static double VapourRefractivity(double s2) =>
        1.022e-8 * (295.235 + (s2 * (2.6422 + (s2 * (-0.032380 + (s2 * 0.004028))))));

    /// <summary>Density p M / (Z R T) with the compressibility Z of moist air (Ciddor 1996, eq. 12).</summary>
    private static double Density(double pressure, double temperature, double vapourMoleFraction, double molarMass)
    {
        double t = temperature - ZeroCelsius;
        double x = vapourMoleFraction;
        double ratio = pressure / temperature;
        double first = 1.58123e-6 - (2.9331e-8 * t) + (1.1043e-10 * t * t)
            + ((5.707e-6 - (2.051e-8 * t)) * x) + ((1.9898e-4 - (2.376e-6 * t)) * x * x);
        double compressibility = 1 - (ratio * first) + (ratio * ratio * (1.83e-11 - (0.765e-8 * x * x)));
        return pressure * molarMass / (compressibility * GasConstant * temperature);
    }
}
