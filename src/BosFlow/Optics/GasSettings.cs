namespace BosFlow.Optics;

/// <summary>The gas in the flow and around it.</summary>
public sealed record GasSettings
{
    /// <summary>The name that stands for the products of a kerosene-like fuel burnt in the air around.</summary>
    public const string Exhaust = "exhaust";

    /// <summary>Gas of the flow: "air", a gas of <see cref="KnownGas"/>, or <see cref="Exhaust"/>; any other needs its coefficient. Only a label where <see cref="Composition"/> is given.</summary>
    public string Name { get; init; } = "air";

    /// <summary>Gas of the flow by mole fractions, in place of the name; empty = the name counts.</summary>
    public IReadOnlyList<GasFraction> Composition { get; init; } = [];

    /// <summary>Fuel over the fuel that the air could burn, 0 to 1; needed for <see cref="Exhaust"/>.</summary>
    public double? EquivalenceRatio { get; init; }

    /// <summary>Gas around the flow: "air" or a gas of <see cref="KnownGas"/>; null = air around exhaust, else the gas of the flow.</summary>
    public string? AmbientName { get; init; }

    /// <summary>Relative humidity of the air around, 0 to 1.</summary>
    public double RelativeHumidity { get; init; }

    /// <summary>Effective wavelength of the camera, m.</summary>
    public double WavelengthMetres { get; init; } = 550e-9;

    /// <summary>Standard uncertainty of the effective wavelength, m.</summary>
    /// <remarks>
    /// The default says that the effective wavelength of a colour camera lies anywhere between 500 nm and 600 nm (100 nm / sqrt(12) = 29 nm): what
    /// its filters and the colour of the light leave open when nobody measured them (a judgement, no source). It costs 0.21 % of the coefficient of air.
    /// </remarks>
    public double WavelengthSigmaMetres { get; init; } = 30e-9;

    /// <summary>Gladstone-Dale coefficient of the gas of the flow, m3/kg; null = from published values for gas and wavelength.</summary>
    public double? GladstoneDaleM3PerKg { get; init; }

    /// <summary>Relative standard uncertainty of the coefficient, 1; null = from its source and the uncertainty of the wavelength.</summary>
    public double? GladstoneDaleRelativeSigma { get; init; }

    /// <summary>Pressure of the surrounding gas, Pa.</summary>
    public double AmbientPressurePascal { get; init; } = 101325;

    /// <summary>Standard uncertainty of that pressure, Pa; null = not stated.</summary>
    public double? AmbientPressureSigmaPascal { get; init; }

    /// <summary>Temperature of the surrounding gas, K; not used where its density is given.</summary>
    public double AmbientTemperatureKelvin { get; init; } = 288.15;

    /// <summary>Standard uncertainty of that temperature, K; null = not stated.</summary>
    public double? AmbientTemperatureSigmaKelvin { get; init; }

    /// <summary>Density of the surrounding gas, kg/m3; null = from pressure and temperature.</summary>
    public double? AmbientDensityKgM3 { get; init; }

    /// <summary>Standard uncertainty of that density, kg/m3; null = not stated.</summary>
    public double? AmbientDensitySigmaKgM3 { get; init; }
}
