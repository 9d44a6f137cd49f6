namespace BosFlow.Optics;

/// <summary>What the conversion to density and temperature needs to know of the gas, with standard uncertainties.</summary>
public sealed record GasProperties
{
    /// <summary>Gladstone-Dale coefficient K of the gas of the flow, m3/kg.</summary>
    public required double FlowGladstoneDale { get; init; }

    /// <summary>Relative standard uncertainty of <see cref="FlowGladstoneDale"/>, 1: of the published value and of the effective wavelength, or what the case states.</summary>
    public required double FlowGladstoneDaleRelativeSigma { get; init; }

    /// <summary>Where coefficient and uncertainty come from, one line.</summary>
    public required string FlowGladstoneDaleSource { get; init; }

    /// <summary>Molar mass of the gas of the flow, kg/mol; null where it is not known: then no temperature can be given.</summary>
    public double? FlowMolarMass { get; init; }

    /// <summary>Gladstone-Dale coefficient of the surrounding gas, m3/kg.</summary>
    public required double AmbientGladstoneDale { get; init; }

    /// <summary>Molar mass of the surrounding gas, kg/mol; null where it is not known.</summary>
    public double? AmbientMolarMass { get; init; }

    /// <summary>Refractive index n0 of the surrounding gas, 1: of air by Ciddor's equations where they hold, else 1 + K rho.</summary>
    public required double AmbientIndex { get; init; }

    /// <summary>Density of the surrounding gas, kg/m3.</summary>
    public required double AmbientDensity { get; init; }

    /// <summary>Standard uncertainty of <see cref="AmbientDensity"/>, kg/m3; null where the case states none.</summary>
    public double? AmbientDensitySigma { get; init; }

    /// <summary>Pressure of the surrounding gas, Pa.</summary>
    public required double AmbientPressure { get; init; }

    /// <summary>Standard uncertainty of <see cref="AmbientPressure"/>, Pa; null where the case states none.</summary>
    public double? AmbientPressureSigma { get; init; }

    /// <summary>Temperature of the surrounding gas, K; where its density is given, the one of an ideal gas of that density and pressure, null without a molar mass.</summary>
    public double? AmbientTemperature { get; init; }

    /// <summary>Standard uncertainty of <see cref="AmbientTemperature"/>, K; null where the case states none.</summary>
    public double? AmbientTemperatureSigma { get; init; }

    /// <summary>The gas in words, for example: "helium in dry air".</summary>
    public required string Description { get; init; }

    /// <summary>What the user should know of these values, one sentence each; usually none.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>The properties of a case's gas.</summary>
    /// <param name="settings">Gas, wavelength and state of the surroundings.</param>
    /// <returns>The properties.</returns>
    /// <exception cref="ConfigurationException">A gas is unknown, something is missing, or a value lies outside its range; one sentence for each problem.</exception>
    public static GasProperties Of(GasSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        GasSettingsCheck.ThrowIfWrong(settings);
        GasModel model = GasModel.Of(settings);
        CoefficientBudget flow = CoefficientBudget.Of(settings, model.Flow);
        // Around: what the case gives for the gas of the flow holds there too, if it is the same gas.
        double ambientCoefficient = model.SameGas ? flow.M3PerKg : model.Ambient!.GladstoneDaleAt(settings.WavelengthMetres).M3PerKg;
        AmbientState ambient = AmbientState.Of(settings, model.Ambient?.MolarMass);
        return new GasProperties
        {
            FlowGladstoneDale = flow.M3PerKg,
            FlowGladstoneDaleRelativeSigma = flow.RelativeSigma,
            FlowGladstoneDaleSource = flow.Source,
            FlowMolarMass = model.Flow?.MolarMass,
            AmbientGladstoneDale = ambientCoefficient,
            AmbientMolarMass = model.Ambient?.MolarMass,
            AmbientIndex = model.AmbientAirIndex(settings) ?? 1 + (ambientCoefficient * ambient.Density),
            AmbientDensity = ambient.Density,
            AmbientDensitySigma = ambient.DensitySigma,
            AmbientPressure = settings.AmbientPressurePascal,
            AmbientPressureSigma = settings.AmbientPressureSigmaPascal,
            AmbientTemperature = ambient.Temperature,
            AmbientTemperatureSigma = ambient.TemperatureSigma,
            Description = model.Description,
            Notes = GasSettingsCheck.Notes(settings),
        };
    }
}
