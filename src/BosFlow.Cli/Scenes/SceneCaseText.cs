using System.Globalization;
using System.Text;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Writes a case file that fits a scene, ready to run.</summary>
internal static class SceneCaseText
{
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
        if (recipe.FlowOffCount > 0 && recipe.FlowOffCount < recipe.FrameCount)
            text.Append(CultureInfo.InvariantCulture, $"use = \"{recipe.FlowOffCount}:{recipe.FrameCount}\"\n");
        if (video is null)
            text.Append(CultureInfo.InvariantCulture, $"frame_rate_hz = {TomlLiteral.Of(recipe.FrameRateHz)}\n");
        if (recipe.FlowOffCount > 0)
            text.Append(CultureInfo.InvariantCulture, $"\n[reference]\nuse = \"0:{recipe.FlowOffCount}\"\n");
        PixelPolygon? outline = FlowOutline.Of(scene);
        if (outline is not null)
            text.Append(CultureInfo.InvariantCulture, $"\n[region]\nflow = [{Polygon(outline)}]\n");
        text.Append(CultureInfo.InvariantCulture, $"\n[registration]\nmotion = \"{Motion(outline)}\"\n");
        if (recipe.Rig is not null)
            AppendRig(text, recipe.Rig, recipe.Gas);
        AppendFlow(text, recipe.Flow);
        text.Append(CultureInfo.InvariantCulture, $"\n[output]\nfolder = {TomlLiteral.Of(outputFolder)}\n");
        return text.ToString();
    }

    // A flow that fills the whole picture cannot be told from a motion of the camera; beside one with an outline there is undisturbed board.
    private static string Motion(PixelPolygon? outline) => outline is null ? "none" : "similarity";

    private static void AppendFlow(StringBuilder text, FlowRecipe flow)
    {
        if (flow.PathLengthMetres is not double length)
            return;
        text.Append("\n[flow]\nshape = \"planar\"\n");
        Append(text, "path_length_mm", length * 1e3);
    }

    private static string Polygon(PixelPolygon polygon) =>
        "[" + string.Join(", ", polygon.Corners.Select(corner => string.Create(CultureInfo.InvariantCulture, $"[{corner.X:0}, {corner.Y:0}]"))) + "]";

    private static void AppendRig(StringBuilder text, RigGeometry rig, GasSettings gas)
    {
        text.Append("\n[rig]\n");
        Append(text, "lens_to_flow_mm", rig.LensToFlowMetres * 1e3);
        Append(text, "flow_to_background_mm", rig.FlowToBackgroundMetres * 1e3);
        Append(text, "background_mm_per_px", rig.BackgroundMetresPerPixel * 1e3);
        Append(text, "focal_length_mm", rig.FocalLengthMetres * 1e3);
        Append(text, "pixel_pitch_um", rig.PixelPitchMetres * 1e6);
        Append(text, "f_number", rig.FNumber);
        text.Append(CultureInfo.InvariantCulture, $"\n[gas]\nname = {TomlLiteral.Of(gas.Name)}\n");
        Append(text, "wavelength_nm", gas.WavelengthMetres * 1e9);
        Append(text, "gladstone_dale_m3_per_kg", gas.GladstoneDaleM3PerKg);
        if (gas.AmbientDensityKgM3 is not null)
        {
            Append(text, "ambient_density_kg_m3", gas.AmbientDensityKgM3);
            return;
        }

        Append(text, "ambient_pressure_pa", gas.AmbientPressurePascal);
        Append(text, "ambient_temperature_c", gas.AmbientTemperatureKelvin - 273.15);
    }

    private static void Append(StringBuilder text, string key, double? value)
    {
        // Ten digits hide what the conversion of units adds in the last place.
        if (value is double number)
            text.Append(CultureInfo.InvariantCulture, $"{key} = {TomlLiteral.Of(double.Parse(number.ToString("G10", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))}\n");
    }
}
