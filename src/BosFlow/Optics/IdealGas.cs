namespace BosFlow.Optics;

/// <summary>The ideal gas, p M = rho R T.</summary>
public static class IdealGas
{
    /// <summary>Molar gas constant R, J/(mol K), exact since 2019 (SI brochure, 9th ed.).</summary>
    public const double GasConstant = 8.31446261815324;

    /// <summary>Density p M / (R T).</summary>
    /// <param name="pressurePascal">Pressure p, Pa, greater than 0.</param>
    /// <param name="molarMass">Molar mass M, kg/mol, greater than 0.</param>
    /// <param name="temperatureKelvin">Temperature T, K, greater than 0.</param>
    /// <returns>kg/m3.</returns>
    public static double Density(double pressurePascal, double molarMass, double temperatureKelvin) =>
        pressurePascal * molarMass / (GasConstant * temperatureKelvin);

    /// <summary>Temperature p M / (R rho).</summary>
    /// <param name="pressurePascal">Pressure p, Pa, greater than 0.</param>
    /// <param name="molarMass">Molar mass M, kg/mol, greater than 0.</param>
    /// <param name="density">Density rho, kg/m3, greater than 0.</param>
    /// <returns>K.</returns>
    public static double Temperature(double pressurePascal, double molarMass, double density) =>
        pressurePascal * molarMass / (GasConstant * density);
}
