namespace BosFlow.Media.Video;

/// <summary>What ffprobe says of the one video stream that is read.</summary>
internal sealed record VideoStream
{
    /// <summary>Number of the stream in the container.</summary>
    internal required int Index { get; init; }

    /// <summary>Codec, such as "h264".</summary>
    internal required string Codec { get; init; }

    /// <summary>Container, such as "mov,mp4,m4a,3gp,3g2,mj2".</summary>
    internal required string Container { get; init; }

    /// <summary>Pixels of a stored row.</summary>
    internal required int StoredWidth { get; init; }

    /// <summary>Stored rows.</summary>
    internal required int StoredHeight { get; init; }

    /// <summary>ffmpeg's name of the pixel format.</summary>
    internal required string PixelFormatName { get; init; }

    /// <summary>How the pixel format becomes grey levels.</summary>
    internal required PixelFormat Format { get; init; }

    /// <summary>Grey levels run over all codes (0 to 255), not over 16 to 235.</summary>
    internal required bool IsFullRange { get; init; }

    /// <summary>Seconds of one tick of the time stamps.</summary>
    internal required double TickSeconds { get; init; }

    /// <summary>Mean frame rate, Hz; NaN where unknown.</summary>
    internal required double MeanRateHz { get; init; }

    /// <summary>Frames that the container promises; 0 where it promises none.</summary>
    internal required int PromisedFrames { get; init; }

    /// <summary>Duration that the container promises, s; NaN where it promises none.</summary>
    internal required double PromisedSeconds { get; init; }

    /// <summary>How the stored pictures are turned for display.</summary>
    internal required Orientation Orientation { get; init; }

    /// <summary>What the user should know, one sentence each.</summary>
    internal required IReadOnlyList<string> Warnings { get; init; }

    /// <summary>Grey level of white: 235 of limited-range 8-bit video, 940 of 10 bits; 255 and 1023 of full range.</summary>
    internal float WhiteLevel => IsFullRange ? (1 << Format.Bits) - 1 : 235 << (Format.Bits - 8);

    /// <summary>Size on display, px.</summary>
    internal (int Width, int Height) Size => OrientationTurn.Size(StoredWidth, StoredHeight, Orientation);
}
