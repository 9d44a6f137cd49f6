using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Media;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Scenes;

/// <summary>Keys of a scene recipe about its video: [video].</summary>
internal static class VideoKeys
{
    private static readonly VideoEncoding Encoding = new();

    public static readonly ChoiceKey<bool> Codec = new() { Section = "video", Name = "codec", Description = "How the video is compressed.", Choices = [("h264", false), ("hevc", true)], Default = TomlLiteral.Of("h264") };
    public static readonly NumberKey Rate = SceneKeys.Number("video", "rate_mbit_s", "Mean rate; nearly lossless where missing.", 0, 10_000, true, null);
    public static readonly IntegerKey KeyFrames = SceneKeys.Whole("video", "key_frame_every", "Frames from one that stands for itself to the next.", 1, 1000, Encoding.KeyFrameEvery);
    public static readonly IntegerKey Bits = new() { Section = "video", Name = "bits", Description = "Bits of the video.", Minimum = 8, Maximum = 10, Only = [8, 10], Default = "8" };
    public static readonly IntegerKey Rotation = new() { Section = "video", Name = "rotation_deg", Description = "Degrees by which a player turns the stored pictures clockwise until they are upright.", Minimum = 0, Maximum = 270, Only = [0, 90, 180, 270], Default = "0" };

    /// <summary>The section.</summary>
    public static readonly CaseSection Section = new("video", "A video of the frames as a camera compresses it, with a case file for it; without this section there is none.", [Codec, Rate, KeyFrames, Bits, Rotation]);

    /// <summary>The encoding; null without its section.</summary>
    /// <param name="values">Checked values.</param>
    public static VideoEncoding? ToEncoding(CaseValues values) => !Section.Keys.Any(values.Has) ? null : new VideoEncoding
    {
        IsHevc = values.Or(Codec, false),
        MegabitsPerSecond = values.Number(Rate),
        KeyFrameEvery = values.Or(KeyFrames, Encoding.KeyFrameEvery),
        Bits = values.Or(Bits, 8),
        RotationDegrees = values.Or(Rotation, 0),
        PausesBefore = PausesOf(RecorderMapping.Order(values)),
    };

    /// <summary>Frames before which the time stamps make a longer step.</summary>
    /// <param name="order">Lost frames; null = none.</param>
    public static IReadOnlyList<int> PausesOf(FrameOrder? order) => order is { StampsTell: true } ? order.LostBefore : [];
}
