using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>From the difference of the refractive index to the surroundings to density and temperature, for one set of inputs.</summary>
/// <remarks>
/// Gladstone-Dale on both sides of the flow's edge: n - 1 = K rho, hence rho = (K0 rho0 + delta) / K with K0, rho0 of the gas around, K of the flow's gas
/// and delta = n - n0. Temperature by the ideal gas, T = p M / (R rho).
/// </remarks>
internal sealed class DensityConversion
{
    private readonly double gladstoneDale;
    private readonly double ambientOverFlow;
    private readonly double ambientDensity;
    private readonly double pressure;
    private readonly double? molarMass;

    /// <summary>Prepares the conversion.</summary>
    /// <param name="inputs">The inputs.</param>
    public DensityConversion(ConversionInputs inputs)
    {
        GasProperties gas = GasProperties.Of(inputs.Gas);
        OpticalScale scale = OpticalScaling.From(inputs.Rig, inputs.Gas);
        gladstoneDale = gas.FlowGladstoneDale * inputs.GladstoneDaleShare;
        // Where the same gas flows and surrounds, an error of its coefficient is the same on both sides.
        ambientOverFlow = gas.AmbientGladstoneDale == gas.FlowGladstoneDale ? 1 : gas.AmbientGladstoneDale / gladstoneDale;
        ambientDensity = gas.AmbientDensity;
        IndexGradientPathPerPixel = scale.IndexGradientPathPerPixel;
        FlowMetresPerPixel = scale.FlowMetresPerPixel;
        BackgroundMetresPerPixel = scale.BackgroundMetresPerPixel;
        PathLengthMetres = inputs.Rig.PathLengthMetres;
        AmbientIndex = gas.AmbientIndex;
        molarMass = inputs.Flow.Temperature == TemperatureModel.IdealGas ? gas.FlowMolarMass : null;
        pressure = inputs.Flow.FlowPressurePascal ?? gas.AmbientPressure;
    }

    /// <summary>Index-gradient path integral for 1 px, 1/px.</summary>
    public double IndexGradientPathPerPixel { get; }

    /// <summary>Scale in the flow plane, m/px.</summary>
    public double FlowMetresPerPixel { get; }

    /// <summary>Scale in the background plane, m/px.</summary>
    public double BackgroundMetresPerPixel { get; }

    /// <summary>Length of a planar flow, m.</summary>
    public double? PathLengthMetres { get; }

    /// <summary>n0, 1.</summary>
    public double AmbientIndex { get; }

    /// <summary>Density of undisturbed gas, as the flow's coefficient reads it, kg/m3.</summary>
    public double SurroundingDensity => ambientOverFlow * ambientDensity;

    public bool HasTemperature => molarMass is not null;

    /// <summary>Density for an index excess, kg/m3 per 1.</summary>
    public double DensityPerIndex => 1 / gladstoneDale;

    /// <summary>State of the gas.</summary>
    /// <param name="indexExcess">n - n0, 1.</param>
    public GasState At(double indexExcess)
    {
        double density = SurroundingDensity + (indexExcess * DensityPerIndex);
        return new GasState(density, molarMass is double mass && density > 0 ? IdealGas.Temperature(pressure, mass, density) : double.NaN);
    }
}
