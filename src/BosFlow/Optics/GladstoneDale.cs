using System.Globalization;

namespace BosFlow.Optics;

/// <summary>Gladstone-Dale coefficients K, m3/kg, of n - 1 = K rho.</summary>
/// <remarks>
/// Air by wavelength: the table for air at 288 K in W. Merzkirch, Flow Visualization, 2nd ed., Academic Press 1987
/// (after Landolt-Boernstein); each entry agrees within 0.05 % with (n - 1) / rho of Ciddor's dispersion formula
/// (see <see cref="AirIndex"/>), which the tests check. Between the entries K is linear in 1 / wavelength squared,
/// the leading term of the dispersion. Standard uncertainty of the table about 0.05 %.
/// </remarks>
public static class GladstoneDale
{
    /// <summary>Shortest wavelength of the table for air, m.</summary>
    public const double ShortestWavelengthMetres = 0.3562e-6;

    /// <summary>Longest wavelength of the table for air, m.</summary>
    public const double LongestWavelengthMetres = 0.9125e-6;

    // Wavelength in micrometres, K in 1e-3 m3/kg, ascending wavelength.
    private static readonly (double Micrometres, double Coefficient)[] AirTable =
    [
        (0.3562, 0.2330), (0.3808, 0.2316), (0.4079, 0.2304), (0.4472, 0.2290), (0.4801, 0.2281), (0.5097, 0.2274),
        (0.5677, 0.2264), (0.6074, 0.2259), (0.6440, 0.2255), (0.7034, 0.2250), (0.9125, 0.2239),
    ];

    /// <summary>The coefficient that a gas's settings ask for: the one given, else the published one for gas and wavelength.</summary>
    /// <param name="gas">Gas, wavelength and state of the surroundings.</param>
    /// <returns>K, m3/kg.</returns>
    /// <exception cref="ConfigurationException">The gas cannot be used; holds every problem.</exception>
    public static double For(GasSettings gas) => GasProperties.Of(gas).FlowGladstoneDale;

    /// <summary>The coefficient of air.</summary>
    /// <param name="wavelengthMetres">Wavelength, m, 356.2 nm to 912.5 nm.</param>
    /// <returns>K, m3/kg.</returns>
    /// <exception cref="ConfigurationException">The wavelength lies outside the table.</exception>
    public static double Air(double wavelengthMetres)
    {
        if (!(wavelengthMetres >= ShortestWavelengthMetres && wavelengthMetres <= LongestWavelengthMetres))
            throw Problem($"The wavelength {Text(wavelengthMetres * 1e9)} nm is outside the table for air, 356.2 nm to 912.5 nm; give the effective wavelength of the camera (550 nm for a colour camera) or the Gladstone-Dale coefficient.");
        double micrometres = wavelengthMetres * 1e6;
        int upper = 1;
        while (upper < AirTable.Length - 1 && AirTable[upper].Micrometres < micrometres)
            upper++;
        (double shortWave, double shortK) = AirTable[upper - 1];
        (double longWave, double longK) = AirTable[upper];
        double share = (InverseSquare(micrometres) - InverseSquare(longWave)) / (InverseSquare(shortWave) - InverseSquare(longWave));
        return 1e-3 * (longK + (share * (shortK - longK)));
    }

    private static double InverseSquare(double value) => 1 / (value * value);

    private static string Text(double value) => value.ToString("G6", CultureInfo.InvariantCulture);

    private static ConfigurationException Problem(string sentence) => new([sentence]);
}
