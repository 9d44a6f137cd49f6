using BosFlow.Density;
using BosFlow.Optics;
using BosFlow.Pipeline;

namespace BosFlow.Results.Report;

/// <summary>Rig, gas and flow as lines of the table of settings: what, value with unit and, where stated, standard uncertainty.</summary>
internal static class ReportRigSettings
{
    private const double Celsius = 273.15;

    public static IEnumerable<IReadOnlyList<string>> Rows(ExperimentCase c, OpticalScale? scale)
    {
        if (c.Rig is not { } rig)
            return [];
        return [.. Rig(rig), .. scale is null ? [] : Gas(c.Gas), .. scale is null ? [] : Scale(scale, rig.BackgroundMetresPerPixel is not null), .. DensityConverter.IsWanted(c.Flow) ? Flow(c.Flow) : []];
    }

    private static IEnumerable<IReadOnlyList<string>> Rig(RigGeometry rig)
    {
        yield return ["Lens (entrance pupil) to flow", Millimetres(rig.LensToFlowMetres, rig.LensToFlowSigmaMetres)];
        yield return ["Flow to background", Millimetres(rig.FlowToBackgroundMetres, rig.FlowToBackgroundSigmaMetres)];
        if (rig.FocalLengthMetres is { } focal)
            yield return ["Focal length", Millimetres(focal, rig.FocalLengthSigmaMetres)];
        if (rig.PixelPitchMetres is { } pitch)
            yield return ["Pixel pitch", $"{Figures.Exact(pitch * 1e6)} µm"];
        if (rig.FNumber is { } number)
            yield return ["f-number", Figures.Exact(number)];
        yield return ["Path length through the flow", rig.PathLengthMetres is { } path ? Millimetres(path, rig.PathLengthSigmaMetres) : "not given"];
        if (rig.BackgroundMetresPerPixel is { } given)
            yield return ["Scale in the background plane, as given", $"{Figures.Exact(given * 1000)} mm/px{(rig.BackgroundScaleRelativeSigma is { } sigma ? $" \u00b1 {Figures.Exact(sigma * 100)} %" : string.Empty)}"];
    }

    private static IEnumerable<IReadOnlyList<string>> Gas(GasSettings gas)
    {
        GasProperties properties = GasProperties.Of(gas);
        yield return ["Gas", properties.Description];
        yield return ["Effective wavelength", $"{Figures.Exact(gas.WavelengthMetres * 1e9)} nm \u00b1 {Figures.Exact(gas.WavelengthSigmaMetres * 1e9)} nm"];
        yield return ["Gladstone-Dale coefficient", $"{Figures.Constant(properties.FlowGladstoneDale)} m³ kg⁻¹ \u00b1 {Figures.Text(100 * properties.FlowGladstoneDaleRelativeSigma)} %: {properties.FlowGladstoneDaleSource}"];
        yield return ["Pressure of the surroundings", With($"{Figures.Exact(gas.AmbientPressurePascal)} Pa", gas.AmbientPressureSigmaPascal, "Pa")];
        yield return gas.AmbientDensityKgM3 is { } density
            ? ["Density of the surroundings, as given", With($"{Figures.Exact(density)} kg m⁻³", gas.AmbientDensitySigmaKgM3, "kg m⁻³")]
            : ["Temperature of the surroundings", With($"{Figures.Exact(Math.Round(gas.AmbientTemperatureKelvin - Celsius, 6))} °C", gas.AmbientTemperatureSigmaKelvin, "K")];
        if (gas.AmbientDensityKgM3 is null)
            yield return ["Density of the surroundings", $"{Figures.Exact(Math.Round(properties.AmbientDensity, 4))} kg m⁻³{(properties.AmbientDensitySigma is { } sigma ? $" \u00b1 {Figures.Text(sigma)} kg m⁻³" : string.Empty)}"];
    }

    private static IEnumerable<IReadOnlyList<string>> Scale(OpticalScale scale, bool isGiven)
    {
        yield return ["Refractive index of the surroundings", $"1 + {Figures.Constant(scale.AmbientIndex - 1)}"];
        if (!isGiven)
            yield return ["Scale in the background plane", $"{Figures.Text(scale.BackgroundMetresPerPixel * 1000)} mm/px"];
        yield return ["Scale in the plane of the flow", $"{Figures.Text(scale.FlowMetresPerPixel * 1000)} mm/px"];
        yield return ["Deflection angle for 1 px", $"{Figures.Text(scale.DeflectionPerPixel * 1e6)} µrad"];
        yield return ["Path-integrated density gradient for 1 px", $"{Figures.Text(scale.DensityGradientPathPerPixel)} kg m⁻³"];
        if (scale.DensityGradientPerPixel is { } gradient)
            yield return ["Density gradient for 1 px", $"{Figures.Text(gradient)} kg m⁻⁴"];
    }

    private static IEnumerable<IReadOnlyList<string>> Flow(FlowSettings flow)
    {
        yield return ["Shape of the flow", Shape(flow.Shape)];
        if (flow.Shape == FlowShape.Axisymmetric)
            yield return ["Axis", Axis(flow)];
        yield return ["Where the gas is that of the surroundings", Surroundings(flow)];
        if (flow.Shape == FlowShape.PathIntegrated)
            yield break;
        yield return ["Temperature", flow.Temperature == TemperatureModel.IdealGas ? "of an ideal gas" : "not asked for"];
        if (flow.Temperature == TemperatureModel.IdealGas)
            yield return ["Pressure in the flow", flow.FlowPressurePascal is { } pressure ? With($"{Figures.Exact(pressure)} Pa", flow.FlowPressureSigmaPascal, "Pa") : "that of the surroundings"];
    }

    private static string Shape(FlowShape shape) => shape switch
    {
        FlowShape.Planar => "planar: the same along the line of sight over the path length",
        FlowShape.Axisymmetric => "axisymmetric: round about an axis across the line of sight",
        _ => "nothing assumed: integrals along the line of sight",
    };

    private static string Axis(FlowSettings flow)
    {
        if (flow.Axis is { } axis)
            return $"through ({Figures.Exact(axis.X1)}, {Figures.Exact(axis.Y1)}) and ({Figures.Exact(axis.X2)}, {Figures.Exact(axis.Y2)}) px, as given";
        return flow.AxisDirectionDegrees is { } degrees
            ? $"found from the symmetry of the displacement, searched near {Figures.Exact(degrees)}\u00b0"
            : "found from the symmetry of the displacement";
    }

    private static string Surroundings(FlowSettings flow)
    {
        string[] edges = [.. Enum.GetValues<PictureEdge>().Where(e => e != PictureEdge.None && flow.AmbientEdges.HasFlag(e)).Select(e => e.ToString().ToLowerInvariant())];
        string[] places =
        [
            .. edges.Length == 0 ? Array.Empty<string>() : [$"{string.Join(" and ", edges)} edge of the picture"],
            .. flow.AmbientRegions.Count == 0 ? Array.Empty<string>() : [$"within {Figures.Count(flow.AmbientRegions.Count, "polygon", "polygons")}"],
        ];
        if (places.Length > 0)
            return string.Join(", ", places);
        return flow.Shape == FlowShape.Axisymmetric ? "beyond the largest distance from the axis" : "not named: differences only";
    }

    private static string Millimetres(double metres, double? sigma) => With($"{Figures.Exact(metres * 1000)} mm", sigma * 1000, "mm");

    private static string With(string value, double? sigma, string unit) => sigma is { } stated ? $"{value} \u00b1 {Figures.Exact(stated)} {unit}" : value;
}
