using BosFlow.Results.NetCdf;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>The exact motion of a scene's camera, row by row, as variables of the truth file.</summary>
internal static class MotionTruth
{
    private const int RowStep = 8;
    private static readonly string[] OnRows = ["frame", "row"];

    /// <summary>Shift, rotation and scale in the middle of the exposure of every eighth row of every frame.</summary>
    /// <param name="scene">The scene.</param>
    public static IReadOnlyList<NetCdfVariable> Variables(SyntheticScene scene)
    {
        int[] frames = [.. Enumerable.Range(0, scene.Recipe.FrameCount)];
        int[] rows = [.. Enumerable.Range(0, ((scene.Recipe.Height - 1) / RowStep) + 1).Select(i => i * RowStep)];
        CameraPose[] poses = [.. frames.SelectMany(frame => rows.Select(row => scene.PoseAt(frame, row)))];
        return
        [
            new() { Name = "frame", Dimensions = ["frame"], Data = frames, Unit = "1", LongName = "number of the frame" },
            new() { Name = "row", Dimensions = ["row"], Data = rows, Unit = "px", LongName = "row of the frame" },
            new() { Name = "time", Dimensions = OnRows, Data = frames.SelectMany(frame => rows.Select(row => scene.ExposedAtSeconds(frame, row))).ToArray(), Unit = "s", LongName = "middle of the row's exposure" },
            Of("camera_shift_x", "px", "shift of the view to the right, from the view at rest", poses.Select(pose => pose.ShiftX)),
            Of("camera_shift_y", "px", "shift of the view down", poses.Select(pose => pose.ShiftY)),
            Of("camera_rotation", "degree", "rotation of the view about the middle of the picture, counter-clockwise as seen, before the shift", poses.Select(pose => pose.Degrees)),
            Of("camera_scale", "1", "magnification about the middle of the picture, before the shift", poses.Select(pose => pose.Scale)),
        ];
    }

    private static NetCdfVariable Of(string name, string unit, string title, IEnumerable<double> values) =>
        new() { Name = name, Dimensions = OnRows, Data = values.ToArray(), Unit = unit, LongName = title };
}
