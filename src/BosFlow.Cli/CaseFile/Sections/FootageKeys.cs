using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Footage;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [footage].</summary>
internal static class FootageKeys
{
    private const string Name = "footage";

    public static readonly TextListKey Frames = new()
    {
        Section = Name,
        Name = "frames",
        Description = "Image sequence: a pattern, one path, or a list of paths; PNG, TIFF, JPEG or BMP, sorted so that frame 10 follows frame 9. Give either this or video.",
        Example = TomlLiteral.Of("frames/*.png"),
        SetInNewCase = true,
    };

    public static readonly TextKey Video = new()
    {
        Section = Name,
        Name = "video",
        Description = "Video file: MP4, MOV, AVI or MKV. Give either this or frames.",
        What = "the path of a video",
        Example = TomlLiteral.Of("clip.mp4"),
    };

    public static readonly FrameRangeKey Use = new()
    {
        Section = Name,
        Name = "use",
        Description = "Which frames are measured. All where neither this nor use_seconds is given.",
        Example = TomlLiteral.Of("0:90"),
    };

    public static readonly SecondsKey UseSeconds = new()
    {
        Section = Name,
        Name = "use_seconds",
        Description = "Which part of the footage is measured, by time since its first frame.",
        Example = "[1.5, 12.0]",
    };

    public static readonly NumberKey FrameRateHz = new()
    {
        Section = Name,
        Name = "frame_rate_hz",
        Description = "Frame rate of an image sequence; a video carries its own times.",
        Minimum = 0,
        AboveMinimum = true,
        Maximum = 1e7,
        Example = TomlLiteral.Of(60.0),
    };

    public static readonly ChoiceKey<VideoDecoder> Decoder = new()
    {
        Section = Name,
        Name = "decoder",
        Description = "What decodes a video: ffmpeg keeps 10 bits and exact times; embedded reads 8 bits and whole milliseconds; automatic takes ffmpeg where it is installed.",
        Choices = [("automatic", VideoDecoder.Automatic), ("ffmpeg", VideoDecoder.Ffmpeg), ("embedded", VideoDecoder.Embedded)],
        Default = TomlLiteral.Of("automatic"),
    };

    public static readonly BooleanKey SkipRepeats = new()
    {
        Section = Name,
        Name = "skip_repeats",
        Description = "Leave a frame out that shows the same picture, pixel by pixel, as the frame before it: it holds nothing new, and would count twice in mean and scatter.",
        Default = TomlLiteral.Of(true),
    };

    public static readonly NumberKey BlurLimit = new()
    {
        Section = Name,
        Name = "blur_limit",
        Description = "Leave a frame out whose dots are wider than this times those of the reference, along the smear: at 2 the noise of its vectors has about doubled. A large number keeps all.",
        Minimum = 1,
        AboveMinimum = true,
        Maximum = 1000,
        Default = TomlLiteral.Of(new FootageSettings().BlurLimit),
    };

    public static readonly CaseSection Section = new(Name, "What was filmed. Paths are relative to this file.", [Frames, Video, Use, UseSeconds, FrameRateHz, SkipRepeats, BlurLimit, Decoder]);
}
