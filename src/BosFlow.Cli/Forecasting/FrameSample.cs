using BosFlow.Footage;

namespace BosFlow.Cli.Forecasting;

/// <summary>The frames that a forecast measures.</summary>
internal static class FrameSample
{
    /// <summary>Some of the frames: spread over all of them where each is a file, else the first, as a video is decoded from its start.</summary>
    /// <param name="frames">All frames, ascending, at least one.</param>
    /// <param name="count">How many are wanted, at least 1.</param>
    /// <param name="info">The footage.</param>
    /// <returns>As many as are wanted, or all there are; ascending, without repeats.</returns>
    public static IReadOnlyList<int> Of(IReadOnlyList<int> frames, int count, FootageInfo info)
    {
        if (count >= frames.Count)
            return frames;
        if (info.Files.Count != info.FrameCount || count == 1)
            return [.. frames.Take(count)];
        return [.. Enumerable.Range(0, count).Select(i => frames[(int)((long)i * (frames.Count - 1) / (count - 1))])];
    }
}
