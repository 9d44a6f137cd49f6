namespace BosFlow.Media.Video;

/// <summary>The command line of ffmpeg for an encoding.</summary>
internal static class EncoderArguments
{
    /// <summary>Reads raw grey pictures from its input and writes a video.</summary>
    internal static string[] Of(ExternalTools tools, string path, int width, int height, double frameRateHz, VideoEncoding encoding) =>
    [
        "-hide_banner", "-v", "error", "-y",
        "-f", "rawvideo", "-pix_fmt", encoding.Bits == 8 ? "gray" : "gray10le", "-color_range", "pc", "-video_size", FormattableString.Invariant($"{width}x{height}"),
        "-framerate", FormattableString.Invariant($"{frameRateHz:R}"), "-i", "pipe:0",
        "-vf", Filters(width, height, encoding), .. tools.KeepEveryFrame,
        "-color_range", "pc", .. Codec(encoding), "-threads", "1",
        "-fflags", "+bitexact", "-flags", "+bitexact", "-movflags", "+faststart", "file:" + path,
    ];

    // The picture is stored turned back by what the player turns it on.
    private static string Filters(int width, int height, VideoEncoding encoding)
    {
        string turn = encoding.RotationDegrees switch { 90 => "transpose=cclock,", 180 => "hflip,vflip,", 270 => "transpose=clock,", _ => "" };
        string pauses = encoding.PausesBefore.Count == 0 ? "" : $"setpts='(N+{string.Join('+', encoding.PausesBefore.Select(frame => $"gte(N,{frame})"))})/(FRAME_RATE*TB)',";
        // 4:2:0 plays everywhere but needs even sides; odd ones keep every pixel with 4:4:4.
        string chroma = width % 2 == 0 && height % 2 == 0 ? "420" : "444";
        return $"{turn}{pauses}scale=in_range=full:out_range=full,format={(encoding.Bits == 8 ? $"yuvj{chroma}p" : $"yuv{chroma}p10le")}";
    }

    private static IEnumerable<string> Codec(VideoEncoding encoding)
    {
        if (encoding.MegabitsPerSecond is not double rate)
            return ["-c:v", encoding.Encoder, "-preset", "veryfast", "-crf", "6", .. Quiet(encoding)];
        string bits = FormattableString.Invariant($"{rate * 1e6:0}");
        string key = FormattableString.Invariant($"{encoding.KeyFrameEvery}");
        // One second of buffer, as a camera that writes a card at a steady rate.
        return ["-c:v", encoding.Encoder, "-preset", "fast", "-b:v", bits, "-maxrate", bits, "-bufsize", bits, "-g", key, "-keyint_min", key, .. encoding.HasBidirectionalFrames ? (string[])[] : ["-bf", "0"], .. Quiet(encoding)];
    }

    private static IEnumerable<string> Quiet(VideoEncoding encoding) => encoding.IsHevc ? ["-x265-params", "log-level=error:pools=1:frame-threads=1", "-tag:v", "hvc1"] : [];
}
