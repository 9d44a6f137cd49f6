using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Optics;

namespace BosFlow.Cli.CaseFile;

/// <summary>Turns the checked values of [gas] into settings in SI units.</summary>
internal static class GasMapping
{
    private const string Mixture = "mixture";
    private const double NanometresPerMetre = 1e9;
    private const double Percent = 100;

    /// <summary>The gas in SI units.</summary>
    /// <param name="values">Checked values.</param>
    public static GasSettings Of(CaseValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var standard = new GasSettings();
        bool mixture = values.Has(GasKeys.Composition);
        (double pressure, double temperature) = State(values, standard);
        return new GasSettings
        {
            Name = mixture ? Mixture : values.Or(GasKeys.Gas, standard.Name),
            Composition = values.Or(GasKeys.Composition, []),
            EquivalenceRatio = values.Number(GasKeys.EquivalenceRatio),
            AmbientName = values.Optional(GasKeys.AmbientName),
            RelativeHumidity = values.Number(GasKeys.Humidity) / Percent ?? standard.RelativeHumidity,
            WavelengthMetres = values.Number(GasKeys.Wavelength) / NanometresPerMetre ?? standard.WavelengthMetres,
            WavelengthSigmaMetres = values.Number(GasKeys.WavelengthSigma) / NanometresPerMetre ?? standard.WavelengthSigmaMetres,
            GladstoneDaleM3PerKg = values.Number(GasKeys.GladstoneDale),
            GladstoneDaleRelativeSigma = values.Number(GasKeys.GladstoneDaleSigma) / Percent,
            AmbientPressurePascal = pressure,
            AmbientPressureSigmaPascal = values.Number(GasKeys.PressureSigma),
            AmbientTemperatureKelvin = temperature,
            AmbientTemperatureSigmaKelvin = values.Number(GasKeys.TemperatureSigma),
            AmbientDensityKgM3 = values.Number(GasKeys.Density),
            AmbientDensitySigmaKgM3 = values.Number(GasKeys.DensitySigma),
        };
    }

    private static (double Pressure, double Temperature) State(CaseValues values, GasSettings standard)
    {
        (double pressure, double temperature) = values.Number(GasKeys.Altitude) is double altitude
            ? StandardAtmosphere.At(altitude)
            : (standard.AmbientPressurePascal, standard.AmbientTemperatureKelvin);
        return (values.Number(GasKeys.Pressure) ?? pressure, values.Number(GasKeys.Temperature) + GasKeys.ZeroCelsiusKelvin ?? temperature);
    }
}
