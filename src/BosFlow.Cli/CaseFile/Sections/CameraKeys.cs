using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [camera].</summary>
internal static class CameraKeys
{
    private const string Name = "camera";

    public static readonly TextKey Lens = new()
    {
        Section = Name,
        Name = "lens",
        Description = "The lens file from bosflow calibrate; vectors and their places are corrected through it, and x and y of the results are those of the ideal picture. Without it the lens is taken for ideal.",
        What = "a path",
        Example = TomlLiteral.Of("lens.toml"),
    };

    public static readonly IntegerKey PictureWidth = Size("picture_width_px", "Width of the pictures, as they are recorded.", 4056);

    public static readonly IntegerKey PictureHeight = Size("picture_height_px", "Height of the pictures, as they are recorded.", 3040);

    public static readonly NumberKey Exposure = Positive("exposure_ms", "Exposure time of a frame; for smear by vibration and by the flow's own motion.", 6e4, 0.5);

    public static readonly NumberKey Readout = new()
    {
        Section = Name,
        Name = "readout_ms",
        Description = "Time from the reading of the first row to that of the last; 0 for a global shutter.",
        Minimum = 0,
        Maximum = 1e3,
        Example = TomlLiteral.Of(16.0),
    };

    public static readonly NumberKey Noise = new()
    {
        Section = Name,
        Name = "noise_percent",
        Description = "Standard deviation of one pixel's grey level from frame to frame, in percent of full scale.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 25,
        Default = TomlLiteral.Of(1.0),
    };

    public static readonly NumberKey Focus = Positive("focus_mm", "Distance on which the lens is focused, from its entrance pupil; the background where it is not given.", 1e7, 2000);

    public static readonly NumberKey Vibration = new()
    {
        Section = Name,
        Name = "vibration_mrad",
        Description = "Standard deviation of the angle by which vibration turns the camera.",
        Minimum = 0,
        Maximum = 100,
        Example = TomlLiteral.Of(0.05),
    };

    public static readonly NumberKey VibrationRate = Positive("vibration_hz", "Frequency of that vibration: of the engine, the propeller, or the mount.", 1e5, 120);

    public static readonly CaseSection Section = new(
        Name,
        "The camera. A run takes lens from here; the other keys are for bosflow plan, since a run finds them in the pictures.",
        [Lens, PictureWidth, PictureHeight, Exposure, Readout, Noise, Focus, Vibration, VibrationRate])
    {
        IsListedBriefly = true,
    };

    private static IntegerKey Size(string name, string description, int example) => new()
    {
        Section = Name,
        Name = name,
        Description = description,
        Minimum = 64,
        Maximum = 65536,
        Example = TomlLiteral.Of(example),
    };

    private static NumberKey Positive(string name, string description, double maximum, double example) => NumberKey.Positive(Name, name, description, maximum, example);
}
