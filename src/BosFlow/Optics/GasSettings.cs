namespace BosFlow.Optics;

/// <summary>The gas around and in the flow, as far as the conversion of this stage needs it.</summary>
public sealed record GasSettings
{
    /// <summary>Name of the gas; "air" is known by its published dispersion.</summary>
    public string Name { get; init; } = "air";

    /// <summary>Effective wavelength of the camera, m.</summary>
    public double WavelengthMetres { get; init; } = 550e-9;

    /// <summary>Gladstone-Dale coefficient, m3/kg; null = from the published table for the gas and wavelength.</summary>
    public double? GladstoneDaleM3PerKg { get; init; }

    /// <summary>Pressure of the surrounding gas, Pa.</summary>
    public double AmbientPressurePascal { get; init; } = 101325;

    /// <summary>Temperature of the surrounding gas, K.</summary>
    public double AmbientTemperatureKelvin { get; init; } = 288.15;

    /// <summary>Density of the surrounding gas, kg/m3; null = from pressure and temperature.</summary>
    public double? AmbientDensityKgM3 { get; init; }
}
