using System.Globalization;
using System.Text.Json;
using BosFlow.Media.Pictures;

namespace BosFlow.Media.Video;

/// <summary>Asks ffprobe what a video file holds.</summary>
internal static class StreamProbe
{
    private const string Entries =
        "stream=index,codec_name,codec_type,width,height,pix_fmt,color_range,time_base,nb_frames,avg_frame_rate,field_order,sample_aspect_ratio"
        + ":stream_disposition=attached_pic:stream_side_data:stream_tags=rotate:format=format_name,duration";

    // Formats that ffmpeg also opens, but that are no footage: text, single pictures, play lists.
    private static readonly string[] NoVideo = ["tty", "image2", "concat", "hls", "lavfi", "ffmetadata", "srt", "webvtt", "ass", "dash", "sdp", "rtsp"];

    /// <summary>The video stream of a file.</summary>
    /// <exception cref="InputDataException">The file is no video, holds no video stream, or one that is not read.</exception>
    internal static VideoStream Read(ExternalTools tools, string path, string name, CancellationToken cancellationToken)
    {
        ToolOutput output = ToolRun.Collect(
            tools.Ffprobe,
            ["-hide_banner", "-v", "error", "-protocol_whitelist", "file", "-of", "json", "-show_entries", Entries, "-i", "file:" + path],
            tools.Patience,
            cancellationToken);
        if (output.ExitCode != 0)
            throw NotReadable(path, name, output.Errors);
        using JsonDocument document = JsonDocument.Parse(output.Output);
        string container = Text(document.RootElement.GetProperty("format"), "format_name");
        if (NoVideo.Contains(container) || container.EndsWith("_pipe", StringComparison.Ordinal))
            throw new InputDataException($"{name} is no video (it looks like {container}): give an MP4, MOV, AVI or MKV file, or pictures under footage.frames.");
        JsonElement[] streams = [.. document.RootElement.GetProperty("streams").EnumerateArray()];
        JsonElement[] videos = [.. streams.Where(static stream => Text(stream, "codec_type") == "video" && !IsCover(stream))];
        if (videos.Length == 0)
        {
            string holds = streams.Length == 0 ? "nothing" : string.Join(", ", streams.Select(static stream => Text(stream, "codec_type")));
            throw new InputDataException($"{name} holds no video stream, only {holds}: give the file with the pictures.");
        }

        return Describe(videos[0], videos.Length, container, document.RootElement.GetProperty("format"), name);
    }

    private static VideoStream Describe(JsonElement stream, int videoStreams, string container, JsonElement format, string name)
    {
        int width = (int)Number(stream, "width", 0);
        int height = (int)Number(stream, "height", 0);
        PictureLimits.Check(width, height, name);
        string pixels = Text(stream, "pix_fmt");
        string codec = Text(stream, "codec_name");
        PixelFormat known = PixelFormat.Of(pixels)
            ?? throw new InputDataException($"{name} is coded as {codec} with the pixel format \"{pixels}\", which is not read: convert it with ffmpeg -i IN -c:v ffv1 -pix_fmt yuv422p10le OUT.mkv.");
        (Orientation orientation, string? turned) = StreamRotation.Read(stream, name);
        var warnings = new List<string>();
        if (turned is not null)
            warnings.Add(turned);
        if (videoStreams > 1)
            warnings.Add(FormattableString.Invariant($"{name} holds {videoStreams} video streams, of which the first is read; if that is the wrong one, copy the right one into a file of its own."));
        if (Text(stream, "field_order") is "tt" or "bb" or "tb" or "bt")
            warnings.Add($"{name} is interlaced: the two halves of each frame's rows were taken at different times; film progressively, or trust slow flows only.");
        if (Text(stream, "sample_aspect_ratio") is not ("" or "1:1" or "0:1") and string aspect)
            warnings.Add($"{name} has pixels that are not square ({aspect}): one scale cannot serve both directions; convert it to square pixels, or film with such.");
        return new VideoStream
        {
            Index = (int)Number(stream, "index", 0),
            Codec = codec,
            Container = container,
            StoredWidth = width,
            StoredHeight = height,
            PixelFormatName = pixels,
            Format = known,
            IsFullRange = IsFullRange(Text(stream, "color_range"), pixels, codec),
            TickSeconds = Ratio(Text(stream, "time_base")),
            MeanRateHz = Ratio(Text(stream, "avg_frame_rate")),
            PromisedFrames = VideoLimits.Promised(Number(stream, "nb_frames", 0)),
            PromisedSeconds = Number(format, "duration", double.NaN),
            Orientation = orientation,
            Warnings = warnings,
        };
    }

    // Where the range is not said, H.264 and H.265 mean limited range (ITU-T H.264 and H.265, annex E,
    // video_full_range_flag inferred as 0); grey and RGB of the lossless codecs use all codes.
    private static bool IsFullRange(string range, string pixels, string codec) => range switch
    {
        "pc" => true,
        "tv" => false,
        _ => pixels.StartsWith("yuvj", StringComparison.Ordinal)
            || (!pixels.StartsWith("yuv", StringComparison.Ordinal) && !pixels.StartsWith("nv", StringComparison.Ordinal)
                && pixels != "uyvy422" && !pixels.StartsWith("p010", StringComparison.Ordinal) && codec is not ("h264" or "hevc")),
    };

    private static InputDataException NotReadable(string path, string name, string errors)
    {
        if (errors.Contains("moov atom not found", StringComparison.Ordinal) && ContainerSignature.IsMp4(path))
            return new InputDataException($"{name} has no index (its moov atom is missing): the recording was cut off before the camera closed the file, so take it again or let the camera repair it.");
        string last = errors.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).LastOrDefault("no reason given");
        return new InputDataException($"{name} is no video that can be read (ffprobe: {last[(last.LastIndexOf(": ", StringComparison.Ordinal) + 1)..].Trim()}): give an MP4, MOV, AVI or MKV file.");
    }

    private static bool IsCover(JsonElement stream) =>
        stream.TryGetProperty("disposition", out JsonElement disposition) && Number(disposition, "attached_pic", 0) == 1;

    private static string Text(JsonElement element, string key) =>
        element.TryGetProperty(key, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString()! : "";

    // ffprobe writes some numbers as numbers and some as text.
    private static double Number(JsonElement element, string key, double absent)
    {
        if (!element.TryGetProperty(key, out JsonElement value))
            return absent;
        if (value.ValueKind == JsonValueKind.Number)
            return value.GetDouble();
        return double.TryParse(value.GetString(), NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? number : absent;
    }

    private static double Ratio(string text)
    {
        string[] parts = text.Split('/');
        return parts.Length == 2
            && double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double above)
            && double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out double below)
            && above > 0 && below > 0 ? above / below : double.NaN;
    }
}
