using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Planning;

/// <summary>The optics of a free round jet.</summary>
internal static class JetOptics
{
    // Beyond this many layer widths from the core the share of the jet's gas is 2e-4 of the axis's.
    private const double Reach = 2.9;

    /// <summary>The jet at the distance asked for.</summary>
    public static FlowOptics Of(ExpectedFlow.Jet flow, GasSettings settings)
    {
        GasProperties properties = GasProperties.Of(settings);
        SceneGas gas = SceneGas.Of(settings);
        FlowOpticsFactory.RequireHotter(gas, flow.NozzleTemperatureKelvin, "jet");
        double pressure = flow.PressurePascal ?? properties.AmbientPressure;
        double pressureRatio = pressure / properties.AmbientPressure;
        if (!FlowOpticsFactory.IsPressureInRange(pressureRatio))
            throw new ConfigurationException([FormattableString.Invariant($"The jet's pressure of {pressure / 100:F0} hPa is {pressureRatio:F2} times the ambient one; outside 0.5 to 2 its shock cells decide, which are not planned for: give pressure and diameter of the jet expanded to the ambient pressure.")]);
        double excess = gas.IndexExcess(flow.NozzleTemperatureKelvin);
        double densityRatio = pressureRatio * gas.DensityAt(excess, flow.NozzleTemperatureKelvin) / gas.AmbientDensityKgM3;
        var jet = new JetDevelopment(flow.NozzleDiameterMetres, densityRatio, flow.DistanceMetres);
        double reach = jet.CoreRadiusMetres + (Reach * jet.LayerMetres);
        double IndexExcess(double radius) => Excess(gas, flow.NozzleTemperatureKelvin, excess, jet.ShareAt(radius));
        double axis = IndexExcess(0);
        double size = EFoldingRadius(IndexExcess, axis, reach);
        double step = 1e-5 * size;
        (double peak, DeflectionProfile profile) = RoundProfile.Of(
            r => (IndexExcess(r + step) - IndexExcess(Math.Max(0, r - step))) / (step + Math.Min(r, step)), size, reach, properties.AmbientIndex);
        return new FlowOptics
        {
            Description = FormattableString.Invariant($"round jet, nozzle {1e3 * flow.NozzleDiameterMetres:G4} mm, {flow.NozzleTemperatureKelvin:F0} K, at {1e3 * flow.DistanceMetres:G4} mm from it ({flow.DistanceMetres / flow.NozzleDiameterMetres:F1} diameters)"),
            Source = "decay 5 D/x and half-width growth 0.11 of a round jet (Chen and Rodi 1980), equivalent diameter (Thring and Newby 1953), both from memory; measured jets scatter by 20 %",
            PeakRadians = peak,
            SizeMetres = size,
            ExtentMetres = reach,
            HalfDepthMetres = size,
            Density = gas.DensityAt(axis, flow.NozzleTemperatureKelvin),
            Temperature = gas.TemperatureAt(axis, flow.NozzleTemperatureKelvin),
            SpeedMetresPerSecond = flow.SpeedMetresPerSecond,
            Profile = profile,
        };
    }

    /// <summary>n - n0 where the jet's gas has a mass fraction: mole fraction from it, adiabatic mixing of equal molar heat capacities (see <see cref="SceneGas"/>).</summary>
    private static double Excess(SceneGas gas, double kelvin, double pure, double massShare)
    {
        double moles = massShare / (massShare + (gas.MolarMassRatio * (1 - massShare)));
        double ambient = gas.AmbientDensityKgM3 * gas.AmbientGladstoneDaleM3PerKg;
        double mixed = gas.AmbientTemperatureKelvin + (moles * (kelvin - gas.AmbientTemperatureKelvin));
        // The unmixed gas's refractivity at the temperature of the surroundings.
        double own = (ambient + pure) * kelvin / gas.AmbientTemperatureKelvin;
        return (gas.AmbientTemperatureKelvin / mixed * (ambient + (moles * (own - ambient)))) - ambient;
    }

    private static double EFoldingRadius(Func<double, double> excess, double axis, double reach)
    {
        double low = 0;
        double high = reach;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (excess(middle) / axis > Math.Exp(-1))
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }
}
