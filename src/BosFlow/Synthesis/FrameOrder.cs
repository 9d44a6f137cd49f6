namespace BosFlow.Synthesis;

/// <summary>Frames that a recorder lost or wrote twice.</summary>
public sealed record FrameOrder
{
    /// <summary>Frames just before which one frame was lost; a number twice means two lost. Each 1 or more.</summary>
    public IReadOnlyList<int> LostBefore { get; init; } = [];

    /// <summary>Frames that show the picture of the frame before once more. Each 1 or more.</summary>
    public IReadOnlyList<int> Repeated { get; init; } = [];

    /// <summary>Whether time stamps tell of lost frames by a longer step; else they count on as if nothing was missing.</summary>
    public bool StampsTell { get; init; } = true;

    /// <summary>The frame whose picture a frame shows: itself, or the last one before it that was not a repetition.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public int Shown(int frame)
    {
        while (Repeated.Contains(frame))
            frame--;
        return frame;
    }

    /// <summary>Periods of the frame rate from the first frame's picture to a frame's turn.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public int Turn(int frame) => frame + LostBefore.Count(lost => lost <= frame);

    /// <summary>Periods of the frame rate that a frame's time stamp tells.</summary>
    /// <param name="frame">Number of the frame, from 0.</param>
    public int Stamp(int frame) => StampsTell ? Turn(frame) : frame;

    /// <summary>Everything that is wrong with these settings, one sentence each; empty where nothing is.</summary>
    public IReadOnlyList<string> Problems() =>
        [.. LostBefore.Concat(Repeated).Where(frame => frame < 1).Select(frame => $"Frame {frame} cannot be repeated or have a lost one before it; give 1 or more.")];
}
