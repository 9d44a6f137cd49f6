using System.Globalization;

namespace BosFlow.Optics;

/// <summary>Which gases a case's settings name: in the flow, and around it.</summary>
internal sealed record GasModel
{
    private const string Air = "air";

    /// <summary>Gas of the flow; null where only its coefficient is known.</summary>
    public GasMixture? Flow { get; private init; }

    /// <summary>Surrounding gas; null where only its coefficient is known.</summary>
    public GasMixture? Ambient { get; private init; }

    /// <summary>Whether the surrounding gas is the one of the flow.</summary>
    public bool SameGas { get; private init; }

    /// <summary>Both in words.</summary>
    public required string Description { get; init; }

    /// <summary>Mole fraction of water vapour in the air around, 1.</summary>
    private double Vapour { get; init; }

    private bool AmbientIsAir { get; init; }

    /// <summary>Whether the flow is burnt gas.</summary>
    /// <param name="settings">Settings.</param>
    public static bool IsExhaust(GasSettings settings) => settings.Composition.Count == 0 && Same(settings.Name, GasSettings.Exhaust);

    /// <summary>The name of the surrounding gas; null where it is the gas of the flow.</summary>
    /// <param name="settings">Settings.</param>
    public static string? AmbientName(GasSettings settings)
    {
        string? name = settings.AmbientName ?? (IsExhaust(settings) ? Air : null);
        return name is not null && settings.Composition.Count == 0 && Same(name, settings.Name) ? null : name;
    }

    /// <summary>Whether the surrounding gas is air.</summary>
    /// <param name="settings">Settings.</param>
    public static bool AirIsAround(GasSettings settings) =>
        AmbientName(settings) is { } name ? Same(name, Air) : settings.Composition.Count == 0 && Same(settings.Name, Air);

    /// <summary>The gases of checked settings.</summary>
    /// <param name="settings">Checked settings.</param>
    public static GasModel Of(GasSettings settings)
    {
        bool airAround = AirIsAround(settings);
        double vapour = airAround && settings.RelativeHumidity > 0
            ? AirIndex.VapourMoleFraction(settings.AmbientTemperatureKelvin, settings.AmbientPressurePascal, settings.RelativeHumidity)
            : 0;
        string? ambientName = AmbientName(settings);
        GasMixture? flow = FlowOf(settings, airAround && ambientName is null ? vapour : 0, vapour);
        string flowWords = FlowWords(settings);
        return new GasModel
        {
            Flow = flow,
            Ambient = ambientName is null ? flow : Named(ambientName, vapour),
            SameGas = ambientName is null,
            Vapour = vapour,
            AmbientIsAir = airAround,
            Description = ambientName is null ? flowWords : $"{flowWords} in {NameWords(ambientName, settings.RelativeHumidity)}",
        };
    }

    /// <summary>Index of the surroundings by Ciddor's equations; null where they are not air, or not within the equations' range, or given by density or coefficient.</summary>
    /// <param name="settings">Checked settings.</param>
    public double? AmbientAirIndex(GasSettings settings)
    {
        bool given = settings.AmbientDensityKgM3 is not null || (SameGas && settings.GladstoneDaleM3PerKg is not null);
        return AmbientIsAir && !given && AirIndex.IsInRange(settings.WavelengthMetres, settings.AmbientTemperatureKelvin, settings.AmbientPressurePascal)
            ? AirIndex.Ciddor(settings.WavelengthMetres, settings.AmbientTemperatureKelvin, settings.AmbientPressurePascal, Vapour)
            : null;
    }

    private static GasMixture? FlowOf(GasSettings settings, double vapourOfAir, double vapourBurntWith)
    {
        if (settings.Composition.Count > 0)
            return new GasMixture(settings.Composition);
        return IsExhaust(settings)
            ? CombustionProducts.At(settings.EquivalenceRatio!.Value, vapourBurntWith)
            : Named(settings.Name, vapourOfAir);
    }

    private static GasMixture? Named(string name, double vapour)
    {
        if (KnownGas.Find(name) is not { } gas)
            return null;
        return vapour > 0 && gas.Name == Air
            ? new GasMixture([new GasFraction(Air, 1 - vapour), new GasFraction("water vapour", vapour)])
            : new GasMixture(gas);
    }

    private static string FlowWords(GasSettings settings)
    {
        if (settings.Composition.Count > 0)
        {
            IEnumerable<string> parts = new GasMixture(settings.Composition).Fractions.Select(part => string.Create(CultureInfo.InvariantCulture, $"{part.MoleFraction:0.####} {part.Name}"));
            return $"mixture of {string.Join(", ", parts)} by mole fractions";
        }

        return IsExhaust(settings)
            ? string.Create(CultureInfo.InvariantCulture, $"exhaust of a kerosene-like fuel at equivalence ratio {settings.EquivalenceRatio!.Value:0.####} (fuel-air ratio {settings.EquivalenceRatio.Value * CombustionProducts.StoichiometricFuelAirRatio:0.####}),")
            : NameWords(settings.Name, settings.RelativeHumidity);
    }

    private static string NameWords(string name, double humidity)
    {
        if (!Same(name, Air))
            return name.ToLowerInvariant();
        return humidity > 0 ? string.Create(CultureInfo.InvariantCulture, $"air of {100 * humidity:0.#} % relative humidity") : "dry air";
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
