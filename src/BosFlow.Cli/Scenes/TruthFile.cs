using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Results.NetCdf;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>The exact truth of a scene as a netCDF file.</summary>
internal static class TruthFile
{
    private static readonly string[] OnGrid = ["y", "x"];

    /// <summary>Name of the file in the folder of a scene.</summary>
    public const string Name = "truth.nc";

    /// <summary>Writes the truth at nodes every eight pixels, which meet the centres of windows with even sides and spacings of 8, 16, 32 px.</summary>
    /// <param name="path">The file.</param>
    /// <param name="scene">The scene.</param>
    /// <param name="cancellationToken">Stops the ray tracing.</param>
    public static void Write(string path, SyntheticScene scene, CancellationToken cancellationToken)
    {
        var grid = new NodeGrid(7.5, 7.5, 8, (scene.Recipe.Width - 8) / 8, (scene.Recipe.Height - 8) / 8);
        SceneTruth truth = scene.TruthAt(grid, cancellationToken);
        List<NetCdfVariable> variables =
        [
            Axis("y", "row of the first frame", [.. Enumerable.Range(0, grid.Rows).Select(grid.Y)]),
            Axis("x", "column of the first frame", [.. Enumerable.Range(0, grid.Columns).Select(grid.X)]),
            Field("u", "px", "true displacement to the right, without camera motion", truth.U),
            Field("v", "px", "true displacement down, without camera motion", truth.V),
        ];
        if (truth is { DensityGradientPathX: { } pathX, DensityGradientPathY: { } pathY })
        {
            variables.Add(Field("density_gradient_path_x", "kg m-3", "true path integral of the density gradient, to the right", pathX));
            variables.Add(Field("density_gradient_path_y", "kg m-3", "true path integral of the density gradient, down", pathY));
        }

        if (truth.DensityKgM3 is { } density)
            variables.Add(Field("density", "kg m-3", "true density in the middle plane of the flow, at the point that the node's line of sight meets in the undisturbed gas", density));
        if (truth.TemperatureKelvin is { } temperature)
            variables.Add(Field("temperature", "K", "true temperature at that point, ideal gas at ambient pressure", temperature));
        if (scene.Recipe.Shake is not null || scene.Recipe.Vibration is not null)
            variables.AddRange(MotionTruth.Variables(scene));
        NetCdfFile.Write(path, new NetCdfContent { Variables = variables, Attributes = Attributes(scene, truth) });
    }

    private static List<NetCdfAttribute> Attributes(SyntheticScene scene, SceneTruth truth)
    {
        List<NetCdfAttribute> attributes =
        [
            new("title", "Exact truth of a synthetic scene"),
            new("comment", truth.DensityKgM3 is not null
                ? "Ray-traced in three dimensions from the pinhole to the background; path integrals are taken along the refracted ray that meets the dot which the undisturbed first frame shows at the node."
                : "Closed form, at the dot which the undisturbed first frame shows at the node."),
            new("flow_off_frames", scene.Recipe.FlowOffCount),
            new("frames", scene.Recipe.FrameCount),
        ];
        if (scene.Scale is OpticalScale scale)
        {
            attributes.Add(new("background_metres_per_pixel", scale.BackgroundMetresPerPixel));
            attributes.Add(new("gladstone_dale_m3_per_kg", scale.GladstoneDaleM3PerKg));
            attributes.Add(new("ambient_index", scale.AmbientIndex));
        }

        return attributes;
    }

    private static NetCdfVariable Axis(string name, string title, double[] values) =>
        new() { Name = name, Dimensions = [name], Data = values, Unit = "px", LongName = title };

    private static NetCdfVariable Field(string name, string unit, string title, float[] values) =>
        new() { Name = name, Dimensions = OnGrid, Data = values, Unit = unit, LongName = title };
}
