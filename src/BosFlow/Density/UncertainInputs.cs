using System.Globalization;
using BosFlow.Optics;

namespace BosFlow.Density;

/// <summary>The inputs that a density depends on, each with its uncertainty.</summary>
internal static class UncertainInputs
{
    private const string NotStated = "no uncertainty stated";

    /// <summary>Lists them.</summary>
    /// <param name="inputs">The inputs as the case gives them.</param>
    public static IReadOnlyList<UncertainInput> Of(ConversionInputs inputs) =>
        [.. Distances(inputs), .. Scale(inputs), .. Gas(inputs), .. Surroundings(inputs), .. Pressure(inputs), .. FlowPressure(inputs)];

    private static IEnumerable<UncertainInput> Distances(ConversionInputs inputs)
    {
        RigGeometry rig = inputs.Rig;
        yield return Length("distance from lens to flow", rig.LensToFlowMetres, rig.LensToFlowSigmaMetres, sigma => inputs with { Rig = rig with { LensToFlowMetres = rig.LensToFlowMetres + sigma } });
        yield return Length("distance from flow to background", rig.FlowToBackgroundMetres, rig.FlowToBackgroundSigmaMetres, sigma => inputs with { Rig = rig with { FlowToBackgroundMetres = rig.FlowToBackgroundMetres + sigma } });
        if (inputs.Flow.Shape == FlowShape.Planar && rig.PathLengthMetres is double path)
            yield return Length("path length through the flow", path, rig.PathLengthSigmaMetres, sigma => inputs with { Rig = rig with { PathLengthMetres = path + sigma } });
    }

    private static IEnumerable<UncertainInput> Scale(ConversionInputs inputs)
    {
        RigGeometry rig = inputs.Rig;
        if (rig.BackgroundMetresPerPixel is double given)
        {
            yield return Input(
                "scale in the background plane", $"{Text(given * 1e3)} mm/px", rig.BackgroundScaleRelativeSigma, sigma => $"{Short(sigma * 100)} %",
                sigma => inputs with { Rig = rig with { BackgroundMetresPerPixel = given * (1 + sigma) } });
        }
        else if (rig.FocalLengthMetres is double focal)
        {
            yield return Length("focal length", focal, rig.FocalLengthSigmaMetres, sigma => inputs with { Rig = rig with { FocalLengthMetres = focal + sigma } });
        }
    }

    private static IEnumerable<UncertainInput> Gas(ConversionInputs inputs)
    {
        GasProperties gas = GasProperties.Of(inputs.Gas);
        yield return Input(
            "Gladstone-Dale coefficient", FormattableString.Invariant($"{gas.FlowGladstoneDale:0.0000000} m³/kg"), gas.FlowGladstoneDaleRelativeSigma, sigma => $"{Short(sigma * 100)} %",
            sigma => inputs with { GladstoneDaleShare = 1 + sigma });
    }

    private static IEnumerable<UncertainInput> Surroundings(ConversionInputs inputs)
    {
        GasSettings gas = inputs.Gas;
        if (gas.AmbientDensityKgM3 is double density)
        {
            yield return Input(
                "density of the surroundings", $"{Text(density)} kg/m³", gas.AmbientDensitySigmaKgM3, sigma => $"{Short(sigma)} kg/m³",
                sigma => inputs with { Gas = gas with { AmbientDensityKgM3 = density + sigma } });
            yield break;
        }

        yield return Input(
            "temperature of the surroundings", $"{Text(gas.AmbientTemperatureKelvin)} K", gas.AmbientTemperatureSigmaKelvin, sigma => $"{Short(sigma)} K",
            sigma => inputs with { Gas = gas with { AmbientTemperatureKelvin = gas.AmbientTemperatureKelvin + sigma } });
    }

    private static IEnumerable<UncertainInput> Pressure(ConversionInputs inputs)
    {
        GasSettings gas = inputs.Gas;
        // Where the pressure in the flow is that of the surroundings, one error moves density and temperature together.
        if (gas.AmbientDensityKgM3 is null || (inputs.Flow.Temperature == TemperatureModel.IdealGas && inputs.Flow.FlowPressurePascal is null))
        {
            yield return Input(
                "pressure of the surroundings", $"{Text(gas.AmbientPressurePascal)} Pa", gas.AmbientPressureSigmaPascal, sigma => $"{Short(sigma)} Pa",
                sigma => inputs with { Gas = gas with { AmbientPressurePascal = gas.AmbientPressurePascal + sigma } });
        }
    }

    private static IEnumerable<UncertainInput> FlowPressure(ConversionInputs inputs)
    {
        FlowSettings flow = inputs.Flow;
        if (flow.Temperature == TemperatureModel.IdealGas && flow.FlowPressurePascal is double pressure)
        {
            yield return Input(
                "pressure in the flow", $"{Text(pressure)} Pa", flow.FlowPressureSigmaPascal, sigma => $"{Short(sigma)} Pa",
                sigma => inputs with { Flow = flow with { FlowPressurePascal = pressure + sigma } });
        }
    }

    private static UncertainInput Length(string source, double metres, double? sigma, Func<double, ConversionInputs> raised) =>
        Input(source, $"{Text(metres * 1e3)} mm", sigma, value => $"{Short(value * 1e3)} mm", raised);

    private static UncertainInput Input(string source, string value, double? sigma, Func<double, string> sigmaText, Func<double, ConversionInputs> raised) =>
        sigma is double given ? new(source, $"{value} ± {sigmaText(given)}", raised(given)) : new(source, $"{value}, {NotStated}", null);

    private static string Text(double value) => value.ToString("G6", CultureInfo.InvariantCulture);

    // An uncertainty is itself known to a digit or two.
    private static string Short(double value) => value.ToString(Math.Abs(value) < 1000 ? "G3" : "F0", CultureInfo.InvariantCulture);
}
