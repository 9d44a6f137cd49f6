using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Optics;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [gas].</summary>
internal static class GasKeys
{
    private const string Name = "gas";

    /// <summary>Zero of the Celsius scale, K (exact, by the definition of the degree Celsius in the SI brochure).</summary>
    public const double ZeroCelsiusKelvin = 273.15;

    private static readonly GasSettings Standard = new();

    public static readonly TextKey Gas = new()
    {
        Section = Name,
        Name = "name",
        Description = $"The gas of the flow: {string.Join(", ", KnownGas.Names)}, or exhaust (a kerosene-like fuel burnt in air, with equivalence_ratio). Any other name needs gladstone_dale_m3_per_kg.",
        What = "the name of a gas",
        Default = TomlLiteral.Of(Standard.Name),
    };

    public static readonly CompositionKey Composition = new()
    {
        Section = Name,
        Name = "composition",
        Description = "The gas of the flow by mole fractions, in place of name; a space in the name of a gas is typed as _.",
        Example = "{carbon_dioxide = 0.15, nitrogen = 0.85}",
    };

    public static readonly NumberKey EquivalenceRatio = new()
    {
        Section = Name,
        Name = "equivalence_ratio",
        Description = $"Of name = \"exhaust\": fuel over the fuel that the air could burn; the fuel-air ratio by mass divided by {CombustionProducts.StoichiometricFuelAirRatio:0.0000}. Complete combustion is assumed.",
        Minimum = 0,
        Maximum = 1,
        Example = TomlLiteral.Of(0.29),
    };

    public static readonly TextKey AmbientName = new()
    {
        Section = Name,
        Name = "ambient_name",
        Description = "The gas around the flow where it is another one: helium into air, for example. Around exhaust it is air.",
        What = "air or another gas of the table",
        Example = TomlLiteral.Of("air"),
    };

    public static readonly NumberKey Humidity = new()
    {
        Section = Name,
        Name = "relative_humidity_percent",
        Description = "Relative humidity of the air around; 50 % at 20 degC lowers the refractivity of air by 0.16 %.",
        Minimum = 0,
        Maximum = 100,
        Default = TomlLiteral.Of(0.0),
    };

    public static readonly NumberKey GladstoneDale = new()
    {
        Section = Name,
        Name = "gladstone_dale_m3_per_kg",
        Description = "Gladstone-Dale coefficient, (n - 1) / density, of the gas of the flow; overrides the published one.",
        Minimum = 1e-5,
        Maximum = 1e-2,
        Example = TomlLiteral.Of(2.267e-4),
    };

    public static readonly NumberKey Wavelength = new()
    {
        Section = Name,
        Name = "wavelength_nm",
        Description = "Effective wavelength of camera and light; green for a colour camera in daylight.",
        Minimum = 300,
        Maximum = 1700,
        Default = TomlLiteral.Of(550.0),
    };

    public static readonly NumberKey Pressure = new()
    {
        Section = Name,
        Name = "ambient_pressure_pa",
        Description = "Pressure of the gas around (the station's own, not reduced to sea level).",
        Minimum = 100,
        Maximum = 1e7,
        Default = TomlLiteral.Of(Standard.AmbientPressurePascal),
    };

    public static readonly NumberKey Temperature = new()
    {
        Section = Name,
        Name = "ambient_temperature_c",
        Description = "Temperature of the gas around.",
        Minimum = -150,
        Maximum = 1500,
        Default = TomlLiteral.Of(15.0),
    };

    public static readonly NumberKey Altitude = new()
    {
        Section = Name,
        Name = "ambient_altitude_m",
        Description = "Geopotential altitude above sea level: pressure and, unless given, temperature of the standard atmosphere (ISO 2533). A barometer is better: weather differs by 2 % and 20 degC.",
        Minimum = StandardAtmosphere.LowestMetres,
        Maximum = StandardAtmosphere.HighestMetres,
        Example = TomlLiteral.Of(300.0),
    };

    public static readonly NumberKey Density = new()
    {
        Section = Name,
        Name = "ambient_density_kg_m3",
        Description = "Density of the gas around, in place of its temperature.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 100,
        Example = TomlLiteral.Of(1.225),
    };

    public static readonly NumberKey WavelengthSigma = new()
    {
        Section = Name,
        Name = "wavelength_sigma_nm",
        Description = "Standard uncertainty of wavelength_nm. The default leaves it anywhere between 500 and 600 nm, as for a colour camera; 0 for a laser.",
        Minimum = 0,
        Maximum = 200,
        Default = TomlLiteral.Of(30.0),
        IsUncertainty = true,
    };

    public static readonly NumberKey GladstoneDaleSigma = NumberKey.Uncertainty(
        Name, "gladstone_dale_sigma_percent", "Standard uncertainty of the coefficient, given or published, with all that makes it uncertain.", 50, 0.5);

    public static readonly NumberKey PressureSigma = NumberKey.Uncertainty(Name, "ambient_pressure_sigma_pa", "Standard uncertainty of ambient_pressure_pa, or of the one of the altitude.", 1e6, 200);

    public static readonly NumberKey TemperatureSigma = NumberKey.Uncertainty(Name, "ambient_temperature_sigma_c", "Standard uncertainty of ambient_temperature_c, or of the one of the altitude.", 500, 0.5);

    public static readonly NumberKey DensitySigma = NumberKey.Uncertainty(Name, "ambient_density_sigma_kg_m3", "Standard uncertainty of ambient_density_kg_m3.", 50, 0.005);

    public static readonly CaseSection Section = new(
        Name,
        "The gas of the flow and around it.",
        [
            Gas, EquivalenceRatio, Composition, AmbientName, Wavelength, GladstoneDale, Pressure, Temperature, Humidity, Altitude, Density,
            WavelengthSigma, GladstoneDaleSigma, PressureSigma, TemperatureSigma, DensitySigma,
        ]);
}
