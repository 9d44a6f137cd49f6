namespace BosFlow.Media.Video;

/// <summary>What a video may claim to be.</summary>
internal static class VideoLimits
{
    /// <summary>Most frames a container's count is believed for: 46 hours at 60 Hz. A larger one is damage.</summary>
    internal const int MostPromisedFrames = 10_000_000;

    /// <summary>Most frames a decoder holds back to put them in order. Source: ITU-T H.264, section A.3.1, and H.265, section A.4.2: at most 16 pictures.</summary>
    internal const int MostReorderedFrames = 16;

    /// <summary>A container's count as a number of frames; 0, no promise, where it is none or damaged.</summary>
    internal static int Promised(double count) => count is >= 1 and <= MostPromisedFrames ? (int)count : 0;
}
