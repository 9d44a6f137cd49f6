using System.Globalization;
using System.Text;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Writes a case file that fits a scene, ready to run.</summary>
internal static class SceneCaseText
{
    /// <summary>Name of the lens file beside the case.</summary>
    public const string LensName = "lens.toml";

    /// <summary>The text of the case file.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="video">Name of the video beside the case file; null = the image sequence is used.</param>
    /// <param name="outputFolder">Folder of the results, relative to the case file.</param>
    public static string Write(SyntheticScene scene, string? video, string outputFolder)
    {
        SceneRecipe recipe = scene.Recipe;
        var text = new StringBuilder();
        text.Append("# A case for a synthetic scene: its exact truth is in truth.nc.\n\n[footage]\n");
        text.Append(video is null ? "frames = \"frames/*.png\"\n" : $"video = {TomlLiteral.Of(video)}\n");
        int flowEnd = recipe.FrameCount - recipe.FlowOffAfterCount;
        if (recipe.FlowOffCount + recipe.FlowOffAfterCount > 0 && recipe.FlowOffCount < flowEnd)
            text.Append(CultureInfo.InvariantCulture, $"use = \"{recipe.FlowOffCount}:{flowEnd}\"\n");
        if (video is null)
            text.Append(CultureInfo.InvariantCulture, $"frame_rate_hz = {TomlLiteral.Of(recipe.FrameRateHz)}\n");
        if (recipe.FlowOffCount > 0)
            text.Append(CultureInfo.InvariantCulture, $"\n[reference]\nuse = \"0:{recipe.FlowOffCount}\"\n");
        PixelPolygon? outline = FlowOutline.Of(scene) is { } ideal ? FlowOutline.AsFilmed(ideal, recipe) : null;
        if (recipe.FlowOffCount > 0 && flowEnd < recipe.FrameCount && outline is not null)
            text.Append(CultureInfo.InvariantCulture, $"use_later = \"{flowEnd}:{recipe.FrameCount}\"\n");
        if (outline is not null)
            text.Append(CultureInfo.InvariantCulture, $"\n[region]\nflow = [{Polygon(outline)}]\n");
        text.Append(CultureInfo.InvariantCulture, $"\n[registration]\nmotion = \"{Motion(outline)}\"\n");
        if (outline is not null && recipe.Shutter is { ReadoutSeconds: > 0 } shutter)
            Append(text, RegistrationKeys.Readout.Name, shutter.ReadoutSeconds * 1e3);
        if (recipe.Lens is not null)
            text.Append(CultureInfo.InvariantCulture, $"\n[camera]\nlens = {TomlLiteral.Of(LensName)}\n");
        if (recipe.Rig is not null)
        {
            AppendRig(text, recipe.Rig);
            AppendGas(text, recipe.Gas);
        }

        AppendFlow(text, scene);
        text.Append(CultureInfo.InvariantCulture, $"\n[output]\nfolder = {TomlLiteral.Of(outputFolder)}\n");
        return text.ToString();
    }

    // A flow that fills the whole picture cannot be told from a motion of the camera; beside one with an outline there is undisturbed board.
    private static string Motion(PixelPolygon? outline) => outline is null ? "none" : "similarity";

    private static void AppendFlow(StringBuilder text, SyntheticScene scene)
    {
        FlowRecipe flow = scene.Recipe.Flow;
        if (flow is FlowRecipe.Jet)
            text.Append("\n[flow]\nshape = \"axisymmetric\"\n");
        if (flow.PathLengthMetres is not double length)
            return;
        text.Append("\n[flow]\nshape = \"planar\"\n");
        Append(text, FlowKeys.PathLength.Name, length * 1e3);
        if (flow is FlowRecipe.SlabBlob)
            text.Append(CultureInfo.InvariantCulture, $"{FlowKeys.AmbientEdges.Name} = [\"left\", \"right\", \"top\", \"bottom\"]\n");
        if (FlowOutline.AmbientOf(scene) is { Count: > 0 } calm)
            text.Append(CultureInfo.InvariantCulture, $"{FlowKeys.AmbientRegions.Name} = [{string.Join(", ", calm.Select(side => Polygon(FlowOutline.AsFilmed(side, scene.Recipe))))}]\n");
        if (!flow.IsAtAmbientPressure)
            text.Append(CultureInfo.InvariantCulture, $"{FlowKeys.Temperature.Name} = \"none\"\n");
    }

    private static string Polygon(PixelPolygon polygon) =>
        "[" + string.Join(", ", polygon.Corners.Select(corner => string.Create(CultureInfo.InvariantCulture, $"[{corner.X:0}, {corner.Y:0}]"))) + "]";

    private static void AppendRig(StringBuilder text, RigGeometry rig)
    {
        text.Append("\n[rig]\n");
        Append(text, "lens_to_flow_mm", rig.LensToFlowMetres * 1e3);
        Append(text, "flow_to_background_mm", rig.FlowToBackgroundMetres * 1e3);
        Append(text, "background_mm_per_px", rig.BackgroundMetresPerPixel * 1e3);
        Append(text, "focal_length_mm", rig.FocalLengthMetres * 1e3);
        Append(text, "pixel_pitch_um", rig.PixelPitchMetres * 1e6);
        Append(text, "f_number", rig.FNumber);
        Append(text, RigKeys.LensToFlowSigma.Name, rig.LensToFlowSigmaMetres * 1e3);
        Append(text, RigKeys.FlowToBackgroundSigma.Name, rig.FlowToBackgroundSigmaMetres * 1e3);
        Append(text, RigKeys.BackgroundScaleSigma.Name, rig.BackgroundScaleRelativeSigma * 100);
        Append(text, RigKeys.FocalLengthSigma.Name, rig.FocalLengthSigmaMetres * 1e3);
    }

    private static void AppendGas(StringBuilder text, GasSettings gas)
    {
        text.Append("\n[gas]\n");
        if (gas.Composition.Count > 0)
            text.Append(CultureInfo.InvariantCulture, $"composition = {{{string.Join(", ", gas.Composition.Select(part => $"{part.Name.Replace(' ', '_')} = {TomlLiteral.Of(part.MoleFraction)}"))}}}\n");
        else
            text.Append(CultureInfo.InvariantCulture, $"name = {TomlLiteral.Of(gas.Name)}\n");
        if (gas.AmbientName is not null)
            text.Append(CultureInfo.InvariantCulture, $"ambient_name = {TomlLiteral.Of(gas.AmbientName)}\n");
        Append(text, GasKeys.EquivalenceRatio.Name, gas.EquivalenceRatio);
        Append(text, GasKeys.Wavelength.Name, gas.WavelengthMetres * 1e9);
        Append(text, GasKeys.GladstoneDale.Name, gas.GladstoneDaleM3PerKg);
        AppendAmbient(text, gas);
        Append(text, GasKeys.WavelengthSigma.Name, Unless(gas.WavelengthSigmaMetres, new GasSettings().WavelengthSigmaMetres) * 1e9);
        Append(text, GasKeys.GladstoneDaleSigma.Name, gas.GladstoneDaleRelativeSigma * 100);
        Append(text, GasKeys.PressureSigma.Name, gas.AmbientPressureSigmaPascal);
        Append(text, GasKeys.TemperatureSigma.Name, gas.AmbientDensityKgM3 is null ? gas.AmbientTemperatureSigmaKelvin : null);
        Append(text, GasKeys.DensitySigma.Name, gas.AmbientDensitySigmaKgM3);
    }

    private static void AppendAmbient(StringBuilder text, GasSettings gas)
    {
        // Beside a density the pressure matters to the temperature alone; the default one needs no line.
        bool dense = gas.AmbientDensityKgM3 is not null;
        bool silent = dense && gas.AmbientPressureSigmaPascal is null && gas.AmbientPressurePascal == new GasSettings().AmbientPressurePascal;
        Append(text, GasKeys.Density.Name, gas.AmbientDensityKgM3);
        Append(text, GasKeys.Pressure.Name, silent ? null : gas.AmbientPressurePascal);
        Append(text, GasKeys.Temperature.Name, dense ? null : gas.AmbientTemperatureKelvin - GasKeys.ZeroCelsiusKelvin);
        Append(text, GasKeys.Humidity.Name, Unless(gas.RelativeHumidity, 0) * 100);
    }

    private static double? Unless(double value, double standard) => value == standard ? null : value;

    private static void Append(StringBuilder text, string key, double? value)
    {
        // Ten digits hide what the conversion of units adds in the last place.
        if (value is double number)
            text.Append(CultureInfo.InvariantCulture, $"{key} = {TomlLiteral.Of(double.Parse(number.ToString("G10", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))}\n");
    }
}
