using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Planning;

/// <summary>Makes the optics of each kind of expected flow.</summary>
internal static class FlowOpticsFactory
{
    // Beyond this the deflection of a Gaussian column is below a thousandth of its peak.
    private const double GaussianExtent = 3;
    private const double PotentialPressureRange = 2;

    /// <summary>The optics of a flow.</summary>
    /// <param name="flow">What is expected.</param>
    /// <param name="settings">Gas and its surroundings.</param>
    /// <exception cref="ConfigurationException">The flow cannot be; one sentence for each problem.</exception>
    public static FlowOptics Of(ExpectedFlow flow, GasSettings settings)
    {
        IReadOnlyList<string> problems = ExpectedFlowCheck.Problems(flow);
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
        return flow switch
        {
            ExpectedFlow.Jet jet => JetOptics.Of(jet, settings),
            ExpectedFlow.Plume plume => Plume(plume, settings),
            ExpectedFlow.HeatedPlate plate => PlateOptics.Of(plate, settings),
            ExpectedFlow.Shock shock => Shock(shock, settings),
            ExpectedFlow.WeakLens lens => Lens(lens),
            ExpectedFlow.GasCell cell => Cell(cell, settings),
            ExpectedFlow.Deflection deflection => Known(deflection),
            _ => throw new ArgumentOutOfRangeException(nameof(flow)),
        };
    }

    private static FlowOptics Plume(ExpectedFlow.Plume plume, GasSettings settings)
    {
        SceneGas gas = SceneGas.Of(settings);
        RequireHotter(gas, plume.TemperatureKelvin, "plume");
        double excess = gas.IndexExcess(plume.TemperatureKelvin);
        return new FlowOptics
        {
            Description = FormattableString.Invariant($"round plume, {plume.TemperatureKelvin:F0} K on its axis, {1e3 * plume.HalfWidthMetres:G4} mm 1/e radius"),
            Source = "Gaussian column: largest deflection 1.52035 of the difference of index on the axis, whatever its width (derived)",
            PeakRadians = RoundProfile.GaussianPeak * Math.Abs(excess) / GasProperties.Of(settings).AmbientIndex,
            SizeMetres = plume.HalfWidthMetres,
            ExtentMetres = GaussianExtent * plume.HalfWidthMetres,
            HalfDepthMetres = plume.HalfWidthMetres,
            Density = gas.DensityAt(excess, plume.TemperatureKelvin),
            Temperature = plume.TemperatureKelvin,
            SpeedMetresPerSecond = plume.SpeedMetresPerSecond,
            Profile = RoundProfile.Gaussian(),
        };
    }

    private static FlowOptics Shock(ExpectedFlow.Shock flow, GasSettings settings)
    {
        GasProperties gas = GasProperties.Of(settings);
        ObliqueShock shock = ObliqueShock.Of(flow.Mach, flow.WedgeDegrees);
        double jump = gas.AmbientDensity * (shock.DensityRatio - 1);
        return new FlowOptics
        {
            Description = FormattableString.Invariant($"oblique shock, Mach {flow.Mach:G4}, wedge of {flow.WedgeDegrees:G4} degrees: shock at {shock.ShockDegrees:F1} degrees, density times {shock.DensityRatio:F4}"),
            Source = "relations of NACA Report 1135 (1953), ratio of specific heats 1.4; jump of density over thickness times length along the line of sight",
            PeakRadians = gas.FlowGladstoneDale * jump / flow.ThicknessMetres * flow.PathLengthMetres / gas.AmbientIndex,
            SizeMetres = flow.ThicknessMetres,
            ExtentMetres = 2 * flow.ThicknessMetres,
            HalfDepthMetres = flow.PathLengthMetres / 2,
            Density = gas.AmbientDensity + jump,
            Temperature = gas.AmbientTemperature * shock.PressureRatio / shock.DensityRatio,
            Profile = new DeflectionProfile(t => 1 - Square(Math.Tanh(2 * t)), 4, odd: false),
        };
    }

    private static FlowOptics Lens(ExpectedFlow.WeakLens lens)
    {
        double radius = lens.DiameterMetres / 2;
        return new FlowOptics
        {
            Description = FormattableString.Invariant($"weak lens, focal length {lens.FocalLengthMetres:G4} m, diameter {1e3 * lens.DiameterMetres:G4} mm"),
            Source = "thin lens: deflection = distance from its centre over focal length (e.g. E. Hecht, Optics, chapter 5)",
            PeakRadians = radius / Math.Abs(lens.FocalLengthMetres),
            SizeMetres = radius,
            ExtentMetres = radius,
            HalfDepthMetres = 0,
            Profile = new DeflectionProfile(t => t <= 1 ? t : 0, 1.25, odd: true, isSharp: true),
        };
    }

    private static FlowOptics Cell(ExpectedFlow.GasCell cell, GasSettings settings)
    {
        if (KnownGas.Find(cell.GasName) is null)
            throw new ConfigurationException([$"The gas of the cell, \"{cell.GasName}\", is not known; known are: {string.Join(", ", KnownGas.Names)}."]);
        GasSettings filled = settings with { Name = cell.GasName, Composition = [], GladstoneDaleM3PerKg = null, GladstoneDaleRelativeSigma = null, AmbientName = settings.AmbientName ?? (settings.Composition.Count > 0 || settings.Name == GasSettings.Exhaust ? "air" : settings.Name) };
        GasProperties gas = GasProperties.Of(filled);
        double temperature = gas.AmbientTemperature ?? settings.AmbientTemperatureKelvin;
        double density = IdealGas.Density(settings.AmbientPressurePascal, gas.FlowMolarMass!.Value, temperature);
        double difference = (gas.FlowGladstoneDale * density) - (gas.AmbientGladstoneDale * gas.AmbientDensity);
        if (Math.Abs(difference) < 1e-9)
            throw new ConfigurationException([$"A cell of {cell.GasName} in {gas.Description} has the index of its surroundings and deflects nothing; choose another gas."]);
        return new FlowOptics
        {
            Description = FormattableString.Invariant($"cell of {cell.GasName}, {1e3 * cell.PathLengthMetres:G4} mm long, mixing over {1e3 * cell.LayerMetres:G4} mm"),
            Source = "ideal gases at ambient pressure and temperature, index by Gladstone and Dale, an even change over the layer",
            PeakRadians = Math.Abs(difference) / cell.LayerMetres * cell.PathLengthMetres / gas.AmbientIndex,
            SizeMetres = cell.LayerMetres,
            ExtentMetres = cell.LayerMetres / 2,
            HalfDepthMetres = cell.PathLengthMetres / 2,
            Density = density,
            Temperature = temperature,
            Profile = new DeflectionProfile(t => t <= 0.5 ? 1 : 0, 0.75, odd: false, isSharp: true),
        };
    }

    private static FlowOptics Known(ExpectedFlow.Deflection flow) => new()
    {
        Description = FormattableString.Invariant($"deflection of {1e3 * flow.Radians:G4} mrad, structure of {1e3 * flow.SizeMetres:G4} mm"),
        Source = "as given; taken to run as across a Gaussian column whose largest deflections lie the given size apart",
        PeakRadians = Math.Abs(flow.Radians),
        SizeMetres = flow.SizeMetres / Math.Sqrt(2),
        ExtentMetres = GaussianExtent * flow.SizeMetres / Math.Sqrt(2),
        HalfDepthMetres = 0,
        Profile = RoundProfile.Gaussian(),
    };

    /// <summary>Whether a flow of one gas is hotter than its surroundings.</summary>
    public static void RequireHotter(SceneGas gas, double kelvin, string what)
    {
        if (gas.IsOneGas && !(kelvin > gas.AmbientTemperatureKelvin))
            throw new ConfigurationException([FormattableString.Invariant($"The {what} of {kelvin - 273.15:F1} C is not hotter than the surroundings of {gas.AmbientTemperatureKelvin - 273.15:F1} C; give the temperature of the hot gas.")]);
    }

    /// <summary>Pressure ratios for which a jet is taken to leave its nozzle without shock cells of its own.</summary>
    public static bool IsPressureInRange(double ratio) => ratio is > 1 / PotentialPressureRange and < PotentialPressureRange;

    private static double Square(double x) => x * x;
}
