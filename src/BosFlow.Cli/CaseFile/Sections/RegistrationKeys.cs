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

    public static readonly ReservedKey Readout = new()
    {
        Section = Name,
        Name = "readout_ms",
        Description = "Time the sensor takes to read all rows. This version takes a global shutter only: 0.",
        Harmless = 0,
        Sentence = "asks for a correction of the rolling shutter, which this version cannot do; remove the key (a global shutter) and judge the noise floor in the report.",
    };

    public static readonly CaseSection Section = new(Name, "The motion of camera and board, which is taken out of the result.", [Motion, LargestShift, Readout]);
}
