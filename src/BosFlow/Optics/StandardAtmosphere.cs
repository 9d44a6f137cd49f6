namespace BosFlow.Optics;

/// <summary>Pressure and temperature of the standard atmosphere by geopotential altitude.</summary>
/// <remarks>Source: ISO 2533:1975 (the same as the U.S. Standard Atmosphere 1976 up to 32 km): g0 = 9.80665 m/s2, R = 287.05287 J/(kg K). Real weather differs by some 2 % in pressure and 20 K.</remarks>
public static class StandardAtmosphere
{
    /// <summary>Lowest altitude, m.</summary>
    public const double LowestMetres = -2000;

    /// <summary>Highest altitude, m.</summary>
    public const double HighestMetres = 32000;

    private const double Gravity = 9.80665;
    private const double SpecificGasConstant = 287.05287;

    // Base of each layer, m, and the change of temperature with altitude in it, K/m.
    private static readonly (double Base, double Lapse)[] Layers = [(0, -6.5e-3), (11000, 0), (20000, 1e-3)];

    /// <summary>The state at an altitude.</summary>
    /// <param name="geopotentialMetres">Geopotential altitude above mean sea level, m, -2000 to 32000.</param>
    /// <returns>Pressure, Pa, and temperature, K.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The altitude lies outside the model.</exception>
    public static (double PressurePascal, double TemperatureKelvin) At(double geopotentialMetres)
    {
        if (!(geopotentialMetres is >= LowestMetres and <= HighestMetres))
            throw new ArgumentOutOfRangeException(nameof(geopotentialMetres), geopotentialMetres, "must lie between -2000 m and 32000 m");
        double pressure = 101325;
        double temperature = 288.15;
        for (int i = 0; i < Layers.Length; i++)
        {
            (double from, double lapse) = Layers[i];
            double to = i + 1 < Layers.Length ? Math.Min(geopotentialMetres, Layers[i + 1].Base) : geopotentialMetres;
            double above = temperature + (lapse * (to - from));
            pressure *= lapse == 0
                ? Math.Exp(-Gravity * (to - from) / (SpecificGasConstant * temperature))
                : Math.Pow(above / temperature, -Gravity / (SpecificGasConstant * lapse));
            temperature = above;
            if (to >= geopotentialMetres)
                break;
        }

        return (pressure, temperature);
    }
}
