using System.Globalization;

namespace BosFlow.Optics;

/// <summary>Finds what is missing, unknown or out of range in a case's gas.</summary>
internal static class GasSettingsCheck
{
    // Mole fractions are typed with two or three digits: what misses 1 by more than this is a forgotten gas or a wrong number.
    private const double LargestSumError = 0.01 + 1e-9;
    private const double SumWorthANote = 1e-6;

    /// <summary>Throws where anything is wrong.</summary>
    /// <param name="settings">Settings.</param>
    /// <exception cref="ConfigurationException">One sentence for each problem.</exception>
    public static void ThrowIfWrong(GasSettings settings)
    {
        var problems = new List<string>();
        Flow(settings, problems);
        Ambient(settings, problems);
        Uncertainties(settings, problems);
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
    }

    /// <summary>What the user should know of settings that can be used.</summary>
    /// <param name="settings">Checked settings.</param>
    public static IReadOnlyList<string> Notes(GasSettings settings)
    {
        double sum = settings.Composition.Sum(part => part.MoleFraction);
        return settings.Composition.Count > 0 && Math.Abs(sum - 1) > SumWorthANote
            ? [$"The mole fractions of the gas add to {Text(sum)}; they were scaled to add to 1."]
            : [];
    }

    private static void Flow(GasSettings settings, List<string> problems)
    {
        if (settings.GladstoneDaleM3PerKg is double given && !(given > 1e-5 && given < 1e-2))
            // Helium-poor mixtures lie near 2e-4, hydrogen at 1.55e-3: a value outside 1e-5..1e-2 is a unit mistake (cm3/g).
            problems.Add($"The Gladstone-Dale coefficient {Text(given)} m3/kg of gas '{settings.Name}' is outside 0.00001 to 0.01 m3/kg; give it in m3/kg (air has 0.000227, which is 0.227 cm3/g).");
        if (settings.Composition.Count > 0)
            Composition(settings.Composition, problems);
        else if (GasModel.IsExhaust(settings))
            Require(problems, settings.EquivalenceRatio, 0, 1, "equivalence ratio of the exhaust", string.Empty, "lean combustion in air; 0.3 is typical of a small jet engine");
        else if (settings.GladstoneDaleM3PerKg is null && KnownGas.Find(settings.Name) is null)
            problems.Add($"Gas '{settings.Name}' is not in the table ({Names()}, or {GasSettings.Exhaust}); name one of these or give its Gladstone-Dale coefficient in m3/kg.");
    }

    private static void Composition(IReadOnlyList<GasFraction> composition, List<string> problems)
    {
        foreach (GasFraction part in composition)
        {
            if (KnownGas.Find(part.Name) is null)
                problems.Add($"Gas '{part.Name}' of the composition is not in the table ({Names()}); name one of these.");
            if (!(part.MoleFraction is >= 0 and <= 1))
                problems.Add($"The mole fraction {Text(part.MoleFraction)} of {part.Name} is outside 0 to 1; give shares that sum to 1.");
        }

        double sum = composition.Sum(part => part.MoleFraction);
        if (problems.Count == 0 && !(Math.Abs(sum - 1) <= LargestSumError))
            problems.Add($"The mole fractions of the gas add to {Text(sum)}; they must add to 1 within 0.01, so correct them or add the gas that is missing.");
    }

    private static void Ambient(GasSettings settings, List<string> problems)
    {
        string? ambient = GasModel.AmbientName(settings);
        if (ambient is not null && KnownGas.Find(ambient) is null)
            problems.Add($"The surrounding gas '{ambient}' is not in the table ({Names()}); name one of these.");
        if (settings.AmbientName is { } named && GasModel.IsExhaust(settings) && !GasModel.AirIsAround(settings) && KnownGas.Find(named) is not null)
            problems.Add($"The gas around {GasSettings.Exhaust} is the air that the fuel was burnt in, not {named}; remove the name of the surrounding gas.");
        if (!(settings.AmbientPressurePascal is > 0 and < 1e7))
            problems.Add($"The ambient pressure {Text(settings.AmbientPressurePascal)} Pa is outside 0 to 10 MPa; give it in Pa (sea level has 101325 Pa).");
        if (settings.AmbientDensityKgM3 is double given)
        {
            if (!(given > 0 && given < 1000))
                problems.Add($"The ambient density {Text(given)} kg/m3 is outside 0 to 1000 kg/m3; give it in kg/m3 (air at sea level has 1.225 kg/m3).");
        }
        else
        {
            if (!(settings.AmbientTemperatureKelvin is > 50 and < 3000))
                problems.Add($"The ambient temperature {Text(settings.AmbientTemperatureKelvin)} K is outside 50 to 3000 K; give what was measured (15 degC is 288.15 K).");
            if (ambient is null && settings.Composition.Count == 0 && KnownGas.Find(settings.Name) is null && settings.GladstoneDaleM3PerKg is not null)
                problems.Add($"The molar mass of gas '{settings.Name}' is not known; give its ambient density in kg/m3, or name the gas around it.");
        }

        if (settings.RelativeHumidity != 0)
            Humidity(settings, problems);
    }

    private static void Humidity(GasSettings settings, List<string> problems)
    {
        double humidity = settings.RelativeHumidity;
        if (!(humidity is >= 0 and <= 1))
            problems.Add($"The relative humidity {Text(100 * humidity)} % is outside 0 to 100 %; give a value within.");
        else if (!GasModel.AirIsAround(settings))
            problems.Add($"A relative humidity of {Text(100 * humidity)} % belongs to air, but the gas around the flow is not air; remove it, or name air as the surrounding gas.");
        else if (settings.AmbientDensityKgM3 is not null)
            problems.Add("The relative humidity needs the ambient temperature, which an ambient density replaces; give pressure and temperature in place of the density, or remove the humidity.");
        else if (!(settings.AmbientTemperatureKelvin is >= 233.15 and <= 373.15))
            problems.Add($"The relative humidity is understood from -40 to 100 degC, and the ambient temperature is {Text(settings.AmbientTemperatureKelvin - 273.15)} degC; set the humidity to 0.");
        else if (!(AirIndex.VapourMoleFraction(settings.AmbientTemperatureKelvin, settings.AmbientPressurePascal, humidity) < 1))
            problems.Add($"A relative humidity of {Text(100 * humidity)} % at {Text(settings.AmbientTemperatureKelvin - 273.15)} degC and {Text(settings.AmbientPressurePascal)} Pa is more vapour than there is gas; check all three.");
    }

    private static void Uncertainties(GasSettings settings, List<string> problems)
    {
        Require(problems, settings.WavelengthSigmaMetres * 1e9, 0, 200, "standard uncertainty of the wavelength", "nm", "30 nm for a colour camera");
        Optional(problems, settings.GladstoneDaleRelativeSigma * 100, 50, "standard uncertainty of the Gladstone-Dale coefficient", "%");
        Optional(problems, settings.AmbientPressureSigmaPascal, settings.AmbientPressurePascal / 2, "standard uncertainty of the ambient pressure", "Pa");
        Optional(problems, settings.AmbientTemperatureSigmaKelvin, settings.AmbientTemperatureKelvin / 2, "standard uncertainty of the ambient temperature", "K");
        if (settings.AmbientDensityKgM3 is double density)
            Optional(problems, settings.AmbientDensitySigmaKgM3, density / 2, "standard uncertainty of the ambient density", "kg/m3");
    }

    private static void Optional(List<string> problems, double? value, double most, string what, string unit)
    {
        if (value is not null)
            Require(problems, value, 0, most, what, unit, "leave it out where it is not known");
    }

    private static void Require(List<string> problems, double? value, double least, double most, string what, string unit, string hint)
    {
        string range = $"{Text(least)} to {Text(most)} {unit}".TrimEnd();
        if (value is null)
            problems.Add($"The {what} is missing; give {range} ({hint}).");
        else if (!(value >= least && value <= most))
            problems.Add($"The {what} is {Text(value.Value)} {unit}".TrimEnd() + $"; it must lie in {range} ({hint}).");
    }

    private static string Names() => string.Join(", ", KnownGas.Names);

    private static string Text(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
