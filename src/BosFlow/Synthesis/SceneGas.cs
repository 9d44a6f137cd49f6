using BosFlow.Optics;

namespace BosFlow.Synthesis;

/// <summary>Index of the scene's gas when it is heated at ambient pressure: ideal gas and Gladstone-Dale.</summary>
/// <param name="GladstoneDaleM3PerKg">K, m3/kg.</param>
/// <param name="AmbientDensityKgM3">Density of the surrounding gas, kg/m3.</param>
/// <param name="AmbientTemperatureKelvin">Temperature of the surrounding gas, K.</param>
public sealed record SceneGas(double GladstoneDaleM3PerKg, double AmbientDensityKgM3, double AmbientTemperatureKelvin)
{
    /// <summary>The gas of some settings.</summary>
    /// <param name="settings">Gas and ambient state.</param>
    public static SceneGas Of(GasSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return new SceneGas(GladstoneDale.For(settings), OpticalScaling.AmbientDensityKgM3(settings), settings.AmbientTemperatureKelvin);
    }

    /// <summary>n - n0 at a temperature: K rho0 (T0 / T - 1).</summary>
    /// <param name="temperatureKelvin">Temperature, K.</param>
    public double IndexExcess(double temperatureKelvin) =>
        GladstoneDaleM3PerKg * AmbientDensityKgM3 * ((AmbientTemperatureKelvin / temperatureKelvin) - 1);

    /// <summary>rho - rho0 at a temperature, kg/m3: rho0 (T0 / T - 1).</summary>
    /// <param name="temperatureKelvin">Temperature, K.</param>
    public double DensityExcess(double temperatureKelvin) => AmbientDensityKgM3 * ((AmbientTemperatureKelvin / temperatureKelvin) - 1);

    /// <summary>Density where the index differs from that of the surrounding gas by an excess, kg/m3: rho0 + excess / K.</summary>
    /// <param name="indexExcess">n - n0, 1.</param>
    public double DensityAt(double indexExcess) => AmbientDensityKgM3 + (indexExcess / GladstoneDaleM3PerKg);

    /// <summary>Temperature of a density at the ambient pressure, K: T0 rho0 / rho.</summary>
    /// <param name="densityKgM3">Density, kg/m3.</param>
    public double TemperatureAt(double densityKgM3) => AmbientTemperatureKelvin * AmbientDensityKgM3 / densityKgM3;
}
