namespace BosFlow.Optics;

/// <summary>Density and temperature of the surrounding gas with their standard uncertainties.</summary>
/// <param name="Density">kg/m3.</param>
/// <param name="DensitySigma">kg/m3; null = nothing stated.</param>
/// <param name="Temperature">K; null where the molar mass is not known.</param>
/// <param name="TemperatureSigma">K; null = nothing stated.</param>
internal sealed record AmbientState(double Density, double? DensitySigma, double? Temperature, double? TemperatureSigma)
{
    /// <summary>The state that checked settings describe: two of pressure, temperature and density, and the ideal gas for the third.</summary>
    /// <param name="settings">Checked settings.</param>
    /// <param name="molarMass">Molar mass, kg/mol; null where it is not known.</param>
    public static AmbientState Of(GasSettings settings, double? molarMass)
    {
        double pressure = settings.AmbientPressurePascal;
        double? pressureSigma = settings.AmbientPressureSigmaPascal / pressure;
        if (settings.AmbientDensityKgM3 is double density)
        {
            double? temperature = molarMass is double mass ? IdealGas.Temperature(pressure, mass, density) : null;
            double? relative = Combine(pressureSigma, settings.AmbientDensitySigmaKgM3 / density);
            return new AmbientState(density, settings.AmbientDensitySigmaKgM3, temperature, relative * temperature);
        }

        double ideal = IdealGas.Density(pressure, molarMass!.Value, settings.AmbientTemperatureKelvin);
        double? sigma = ideal * Combine(pressureSigma, settings.AmbientTemperatureSigmaKelvin / settings.AmbientTemperatureKelvin);
        return new AmbientState(ideal, sigma, settings.AmbientTemperatureKelvin, settings.AmbientTemperatureSigmaKelvin);
    }

    // One that is not stated counts as exact beside one that is.
    private static double? Combine(double? one, double? other) =>
        one is null && other is null ? null : Math.Sqrt(((one ?? 0) * (one ?? 0)) + ((other ?? 0) * (other ?? 0)));
}
