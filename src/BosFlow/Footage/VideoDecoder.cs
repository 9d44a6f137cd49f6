namespace BosFlow.Footage;

/// <summary>Which decoder reads a video.</summary>
public enum VideoDecoder
{
    /// <summary>ffmpeg where it is on PATH, else the embedded one.</summary>
    Automatic,

    /// <summary>ffmpeg on PATH: native luma codes, 10 bit kept, exact time stamps.</summary>
    Ffmpeg,

    /// <summary>OpenCV's decoder: 8 bit, whole milliseconds.</summary>
    Embedded,
}
