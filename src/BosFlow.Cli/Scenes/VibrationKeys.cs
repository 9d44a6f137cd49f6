using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Keys of a scene recipe about a camera that vibrates and reads its picture row by row: [vibration] and [shutter].</summary>
internal static class VibrationKeys
{
    private static readonly VibrationSettings Vibration = new();

    public static readonly NumberKey Low = SceneKeys.Number("vibration", "low_hz", "Lower end of the band of noise.", 0, 1e5, false, Vibration.LowHertz);
    public static readonly NumberKey High = SceneKeys.Number("vibration", "high_hz", "Upper end of the band of noise; may lie above the frame rate.", 0, 1e5, true, Vibration.HighHertz);
    public static readonly NumberKey Shift = SceneKeys.Number("vibration", "shift_rms_px", "Root mean square of the band's shift, in x and in y each.", 0, 200, false, 0);
    public static readonly NumberKey Rotation = SceneKeys.Number("vibration", "rotation_rms_deg", "Root mean square of the band's rotation.", 0, 10, false, 0);
    public static readonly NumberKey Scale = SceneKeys.Number("vibration", "scale_rms_percent", "Root mean square of the band's change of scale, percent.", 0, 5, false, 0);
    public static readonly NumberListKey LineFrequencies = new() { Section = "vibration", Name = "line_hz", Description = "Frequencies of tones beside the band, such as a shaft's rate.", Above = 0, Maximum = 1e5, Example = "[120, 240]" };
    public static readonly NumberListKey LineAmplitudes = new() { Section = "vibration", Name = "line_px", Description = "Largest shift by each of these tones, in x and in y each.", Above = 0, Maximum = 200, Example = "[2, 2]", MayRepeat = true };
    public static readonly IntegerKey StillFrames = SceneKeys.Whole("vibration", "still_frames", "Number of frames at the start in which the camera is still.", 0, 1_000_000, 0);

    public static readonly NumberKey Readout = SceneKeys.Number("shutter", "readout_ms", "Time from the first row's exposure to the end of the last; at most the frame's period. 0 = all rows at once.", 0, 1e4, false, 0);
    public static readonly NumberKey Exposure = SceneKeys.Number("shutter", "exposure_ms", "Time for which each row collects light; at most the frame's period. 0 = an instant.", 0, 1e4, false, 0);

    /// <summary>The motion.</summary>
    public static readonly CaseSection VibrationSection = new("vibration", "Vibration of the camera about its place: a band of noise, and tones. Without this section it has none.",
        [Low, High, Shift, Rotation, Scale, LineFrequencies, LineAmplitudes, StillFrames]);

    /// <summary>The rows.</summary>
    public static readonly CaseSection ShutterSection = new("shutter", "When the rows of a picture see light; without this section all at one instant.", [Readout, Exposure]);
}
