using BosFlow.Optics;

namespace BosFlow.Synthesis;

/// <summary>Index, density and temperature of the scene's gas at ambient pressure: ideal gases, Gladstone-Dale, and adiabatic mixing where the flow is of another gas than its surroundings.</summary>
/// <param name="GladstoneDaleM3PerKg">K of the gas of the flow, m3/kg.</param>
/// <param name="AmbientDensityKgM3">Density of the surrounding gas, kg/m3.</param>
/// <param name="AmbientTemperatureKelvin">Temperature of the surrounding gas, K.</param>
/// <remarks>
/// With X the mole fraction of the gas of the flow and T = T0 + X (T1 - T0) for equal molar heat capacities, T1 the temperature of the unmixed gas:
/// n - 1 = (T0 / T) rho0 (Ka + X (m K - Ka)) and rho = (T0 / T) rho0 (1 + X (m - 1)), m the ratio of the molar masses and Ka the coefficient of the surrounding gas.
/// In one gas this is rho = rho0 + (n - n0) / K.
/// </remarks>
public sealed record SceneGas(double GladstoneDaleM3PerKg, double AmbientDensityKgM3, double AmbientTemperatureKelvin)
{
    /// <summary>Ka: Gladstone-Dale coefficient of the surrounding gas, m3/kg.</summary>
    public double AmbientGladstoneDaleM3PerKg { get; init; } = GladstoneDaleM3PerKg;

    /// <summary>m: molar mass of the gas of the flow over that of the surrounding gas, 1.</summary>
    public double MolarMassRatio { get; init; } = 1;

    /// <summary>Whether the flow and its surroundings are one gas, as far as index and density can tell.</summary>
    public bool IsOneGas => MolarMassRatio == 1 && AmbientGladstoneDaleM3PerKg == GladstoneDaleM3PerKg;

    /// <summary>The gas of some settings.</summary>
    /// <param name="settings">Gas and ambient state.</param>
    /// <exception cref="ConfigurationException">A gas is unknown, or two gases of which one has no known molar mass are to mix.</exception>
    public static SceneGas Of(GasSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        GasProperties gas = GasProperties.Of(settings);
        var one = new SceneGas(gas.FlowGladstoneDale, gas.AmbientDensity, gas.AmbientTemperature ?? settings.AmbientTemperatureKelvin);
        if (gas.FlowGladstoneDale == gas.AmbientGladstoneDale && gas.FlowMolarMass == gas.AmbientMolarMass)
            return one;
        if (gas.FlowMolarMass is not double flow || gas.AmbientMolarMass is not double ambient)
            throw new ConfigurationException([$"The flow is {gas.Description}; a scene of two gases needs the molar mass of both: name known gases or give the composition."]);
        return one with { AmbientGladstoneDaleM3PerKg = gas.AmbientGladstoneDale, MolarMassRatio = flow / ambient };
    }

    /// <summary>n - n0 of the unmixed gas of the flow at a temperature.</summary>
    /// <param name="temperatureKelvin">Temperature, K.</param>
    public double IndexExcess(double temperatureKelvin) => IsOneGas
        ? GladstoneDaleM3PerKg * AmbientDensityKgM3 * ((AmbientTemperatureKelvin / temperatureKelvin) - 1)
        : AmbientDensityKgM3 * ((GladstoneDaleM3PerKg * MolarMassRatio * AmbientTemperatureKelvin / temperatureKelvin) - AmbientGladstoneDaleM3PerKg);

    /// <summary>Density where the index differs from that of the surroundings.</summary>
    /// <param name="indexExcess">n - n0, 1.</param>
    /// <param name="sourceKelvin">T1: temperature of the unmixed gas of the flow, K; of no matter in one gas.</param>
    /// <returns>kg/m3.</returns>
    public double DensityAt(double indexExcess, double sourceKelvin)
    {
        if (IsOneGas)
            return AmbientDensityKgM3 + (indexExcess / GladstoneDaleM3PerKg);
        double share = MoleFractionAt(indexExcess, sourceKelvin);
        return AmbientTemperatureKelvin / Mixed(share, sourceKelvin) * AmbientDensityKgM3 * (1 + (share * (MolarMassRatio - 1)));
    }

    /// <summary>Temperature where the index differs from that of the surroundings, at ambient pressure.</summary>
    /// <param name="indexExcess">n - n0, 1.</param>
    /// <param name="sourceKelvin">T1: temperature of the unmixed gas of the flow, K; of no matter in one gas.</param>
    /// <returns>K.</returns>
    public double TemperatureAt(double indexExcess, double sourceKelvin) => IsOneGas
        ? AmbientTemperatureKelvin * AmbientDensityKgM3 / DensityAt(indexExcess, sourceKelvin)
        : Mixed(MoleFractionAt(indexExcess, sourceKelvin), sourceKelvin);

    private double Mixed(double share, double sourceKelvin) => AmbientTemperatureKelvin + (share * (sourceKelvin - AmbientTemperatureKelvin));

    /// <summary>X from n - 1: both sides of the equation above are linear in X.</summary>
    private double MoleFractionAt(double indexExcess, double sourceKelvin)
    {
        double ambient = AmbientDensityKgM3 * AmbientGladstoneDaleM3PerKg;
        double refractivity = ambient + indexExcess;
        double pure = AmbientDensityKgM3 * MolarMassRatio * GladstoneDaleM3PerKg;
        return AmbientTemperatureKelvin * -indexExcess / ((refractivity * (sourceKelvin - AmbientTemperatureKelvin)) - (AmbientTemperatureKelvin * (pure - ambient)));
    }
}
