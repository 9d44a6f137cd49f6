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
        Description = "The gas. air has its coefficient from published dispersion; any other needs gladstone_dale_m3_per_kg.",
        What = "the name of a gas",
        Default = TomlLiteral.Of(Standard.Name),
    };

    public static readonly NumberKey GladstoneDale = new()
    {
        Section = Name,
        Name = "gladstone_dale_m3_per_kg",
        Description = "Gladstone-Dale coefficient, (n - 1) / density; overrides the one of air.",
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
        Description = "Pressure of the air around (the station's own, not reduced to sea level).",
        Minimum = 100,
        Maximum = 1e7,
        Default = TomlLiteral.Of(Standard.AmbientPressurePascal),
    };

    public static readonly NumberKey Temperature = new()
    {
        Section = Name,
        Name = "ambient_temperature_c",
        Description = "Temperature of the air around.",
        Minimum = -150,
        Maximum = 1500,
        Default = TomlLiteral.Of(15.0),
    };

    public static readonly NumberKey Density = new()
    {
        Section = Name,
        Name = "ambient_density_kg_m3",
        Description = "Density of the gas around, in place of pressure and temperature.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 100,
        Example = TomlLiteral.Of(1.225),
    };

    public static readonly CaseSection Section = new(Name, "The gas of the flow and around it.", [Gas, GladstoneDale, Wavelength, Pressure, Temperature, Density]);
}
