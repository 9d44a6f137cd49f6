using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>Reads frames of a run and finds those that repeat the picture before them.</summary>
/// <remarks>
/// The answer for a frame depends on the footage alone, so that it is the same in a run that is resumed, split into shards, or widened to more frames: the frame before is read too where it is not asked
/// for. Two exposures differ by their noise in at least one pixel; a repetition that was compressed anew differs too, and is not found.
/// </remarks>
internal sealed class FrameSequence(IFootage footage, bool findsRepeats)
{
    private readonly Lock guard = new();

    // The picture before, and whether nobody but this reads it any more.
    private GrayImage? last;
    private bool lastIsDone;

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

    /// <summary>Gives the picture of a frame back to the footage; nobody may read it from now on. Safe to call from several threads.</summary>
    /// <param name="frame">A frame that was read.</param>
    public void Done(Frame frame)
    {
        if (frame.Image is null)
            return;
        lock (guard)
        {
            if (ReferenceEquals(frame.Image, last))
                lastIsDone = true;
            else
                footage.GiveBack(frame.Image);
        }
    }

    private IEnumerable<Frame> Marked(IEnumerable<Frame> frames, HashSet<int> asked)
    {
        Frame? before = null;
        foreach (Frame frame in frames)
        {
            bool isRepeat = asked.Contains(frame.Index) && IsRepeat(before, frame);
            Keep(frame.Image, isDone: !asked.Contains(frame.Index));
            if (asked.Contains(frame.Index))
                yield return isRepeat ? frame with { RepeatOf = before!.Index } : frame;
            before = frame;
        }
    }

    private void Keep(GrayImage? picture, bool isDone)
    {
        lock (guard)
        {
            if (last is not null && lastIsDone)
                footage.GiveBack(last);
            (last, lastIsDone) = (picture, isDone);
        }
    }

    private static bool IsRepeat(Frame? last, Frame frame) =>
        last?.Index == frame.Index - 1 && last.Image is { } a && frame.Image is { } b && a.Width == b.Width && a.Height == b.Height && a.HasLevelsOf(b);
}
