namespace BosFlow.Footage;

/// <summary>Which footage, and which of its frames.</summary>
public sealed record FootageSettings
{
    /// <summary>Glob or explicit paths of an image sequence, relative to the case file; empty where a video is given.</summary>
    public IReadOnlyList<string> Frames { get; init; } = [];

    /// <summary>Path of a video, relative to the case file; null where an image sequence is given.</summary>
    public string? Video { get; init; }

    /// <summary>start:stop:step in frame numbers, as typed; null = all.</summary>
    public string? Use { get; init; }

    /// <summary>First and last second to use; null = all.</summary>
    public (double Start, double Stop)? UseSeconds { get; init; }

    /// <summary>Frame rate of an image sequence, Hz; null where unknown or carried by the container.</summary>
    public double? FrameRateHz { get; init; }

    /// <summary>Whether a frame is left out that shows the same picture, pixel by pixel, as the frame before it.</summary>
    public bool SkipRepeats { get; init; } = true;

    /// <summary>How many times wider than in the reference the dots of a frame may be, along the longest axis, before it is left out; greater than 1.</summary>
    /// <remarks>Dots of twice the width have half the contrast along the smear: the noise of a vector doubles there, and an average over frames is better without it.</remarks>
    public double BlurLimit { get; init; } = 2;

    /// <summary>Which decoder reads a video.</summary>
    public VideoDecoder Decoder { get; init; } = VideoDecoder.Automatic;
}
