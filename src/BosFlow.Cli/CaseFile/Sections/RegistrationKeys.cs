using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Registration;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [registration].</summary>
internal static class RegistrationKeys
{
    private const string Name = "registration";
    private static readonly RegistrationSettings Standard = new();

    public static readonly ChoiceKey<MotionModel> Motion = new()
    {
        Section = Name,
        Name = "motion",
        Description = "What camera and board may do between reference and frame: shift, rigid (shift and rotation), similarity (and scale), homography (and tilt), or none.",
        Choices =
        [
            ("none", MotionModel.None), ("shift", MotionModel.Shift), ("rigid", MotionModel.Rigid),
            ("similarity", MotionModel.Similarity), ("homography", MotionModel.Homography),
        ],
        Default = TomlLiteral.Of("similarity"),
    };

    public static readonly IntegerKey LargestShift = new()
    {
        Section = Name,
        Name = "largest_shift_px",
        Description = "Largest shift of the whole picture that is searched for.",
        Minimum = 1,
        Maximum = 1024,
        Default = TomlLiteral.Of(Standard.LargestShiftPixels),
    };

    public static readonly ReadoutKey Readout = new()
    {
        Section = Name,
        Name = "readout_ms",
        Description = "Rolling shutter: time from the reading of the first row of a frame to that of the last. Each row then gets a motion of its own. 0 for a global shutter; \"estimate\" finds it from the shake of the footage, with its uncertainty.",
        Default = TomlLiteral.Of(0.0),
    };

    public static readonly NumberKey HighestVibration = NumberKey.Positive(
        Name, "highest_vibration_hz", "Highest frequency of vibration that is followed within a frame; three times the frame rate where it is not given.", 1e5, 180);

    public static readonly CaseSection Section = new(Name, "The motion of camera and board, which is taken out of the result.", [Motion, LargestShift, Readout, HighestVibration]);
}
