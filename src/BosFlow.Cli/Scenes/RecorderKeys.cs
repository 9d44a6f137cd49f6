using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Keys of a scene recipe about what a camera does to its frames after the sensor: [stabilisation] and [recorder].</summary>
internal static class RecorderKeys
{
    private static readonly StabilisationSettings Stabilisation = new();

    public static readonly NumberKey Smoothing = SceneKeys.Number("stabilisation", "smoothing_frames", "Standard deviation of the Gaussian in time that smooths the view's motion, in frames.", 0, 1000, true, Stabilisation.SmoothingFrames);
    public static readonly IntegerKey Border = SceneKeys.Whole("stabilisation", "border_px", "Pixels that the sensor has beyond every edge; the farthest the picture may be shifted.", 1, 500, Stabilisation.BorderPixels);

    public static readonly WholeNumberListKey LostBefore = new() { Section = "recorder", Name = "lost_before_frames", Description = "Frames just before which one frame was lost; a number twice means two lost.", Minimum = 1, Maximum = 999_999, Example = "[12, 30]" };
    public static readonly WholeNumberListKey Repeated = new() { Section = "recorder", Name = "repeated_frames", Description = "Frames that show the picture of the frame before once more.", Minimum = 1, Maximum = 999_999, Example = "[20]" };
    public static readonly BooleanKey StampsTell = new() { Section = "recorder", Name = "stamps_tell", Description = "Whether the video's time stamps tell of lost frames by a longer step; else they count on as if nothing was missing.", Default = TomlLiteral.Of(true) };

    /// <summary>Stabilisation.</summary>
    public static readonly CaseSection StabilisationSection = new("stabilisation", "Electronic stabilisation by cutting each picture out of a larger one; without this section it is off.", [Smoothing, Border]);

    /// <summary>Lost and repeated frames.</summary>
    public static readonly CaseSection RecorderSection = new("recorder", "Frames that were lost or written twice.", [LostBefore, Repeated, StampsTell]);
}
