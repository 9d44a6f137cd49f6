using System.Runtime.InteropServices;
using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>Reads frames of a run and finds those that repeat the picture before them.</summary>
/// <remarks>
/// The answer for a frame depends on the footage alone, so that it is the same in a run that is resumed, split into shards, or widened to more frames: the frame before is read too where it is not asked
/// for. Two exposures differ by their noise in at least one pixel; a repetition that was compressed anew differs too, and is not found.
/// </remarks>
internal sealed class FrameSequence(IFootage footage, bool findsRepeats)
{
    /// <summary>Reads.</summary>
    /// <param name="indices">Frames to read, ascending.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        if (!findsRepeats)
            return footage.Read(indices, cancellationToken);
        int[] needed = [.. indices.Concat(indices.Where(index => index > 0).Select(index => index - 1)).Distinct().Order()];
        return Marked(footage.Read(needed, cancellationToken), [.. indices]);
    }

    private static IEnumerable<Frame> Marked(IEnumerable<Frame> frames, HashSet<int> asked)
    {
        Frame? last = null;
        foreach (Frame frame in frames)
        {
            if (asked.Contains(frame.Index))
                yield return IsRepeat(last, frame) ? frame with { RepeatOf = last!.Index } : frame;
            last = frame;
        }
    }

    private static bool IsRepeat(Frame? last, Frame frame) =>
        last?.Index == frame.Index - 1 && last.Image is { } a && frame.Image is { } b && a.Width == b.Width
        && MemoryMarshal.AsBytes(a.Pixels).SequenceEqual(MemoryMarshal.AsBytes(b.Pixels));
}
