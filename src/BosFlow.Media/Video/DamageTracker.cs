namespace BosFlow.Media.Video;

/// <summary>Follows which frames came out of the decoder, and which of those that came are built on one that did not.</summary>
/// <param name="packets">The frames by their packets.</param>
/// <param name="frameCount">Frames of the footage.</param>
/// <param name="start">Number of the key frame that decoding starts from; 0 for the start of the file.</param>
internal sealed class DamageTracker(PacketIndex packets, int frameCount, int start)
{
    // Places in the order of decoding of the frames that did not come.
    private readonly Dictionary<int, int> missing = [];
    private readonly HashSet<int> missingIndices = [];
    private readonly SortedSet<int> missingPlaces = [];
    private int front = start - 1;

    /// <summary>A frame came; frames come in the order of display, so those passed over never will.</summary>
    internal void Came(int index)
    {
        for (int passed = front + 1; passed < index; passed++)
            Miss(passed);
        front = Math.Max(front, index);
    }

    /// <summary>The decoder has ended: whatever has not come is missing.</summary>
    internal void End() => Came(frameCount);

    /// <summary>Whether all is known that decides about a frame.</summary>
    internal bool IsDecided(int index) => front >= frameCount || (index < packets.Count && front >= packets.KnownAfter(index));

    /// <summary>Whether a decided frame never came.</summary>
    internal bool IsMissing(int index) => missingIndices.Contains(index);

    /// <summary>Number of a missing frame that a decided frame may have been predicted from; null where there is none.</summary>
    internal int? Culprit(int index)
    {
        int from = packets.GroupStart(index);
        int to = packets.DecodedAt(index) - 1;
        if (from > to || missingPlaces.Count == 0)
            return null;
        SortedSet<int> before = missingPlaces.GetViewBetween(from, to);
        return before.Count > 0 ? missing[before.Min] : null;
    }

    private void Miss(int index)
    {
        missingIndices.Add(index);
        if (index >= packets.Count)
            return;
        missing[packets.DecodedAt(index)] = index;
        missingPlaces.Add(packets.DecodedAt(index));
    }
}
