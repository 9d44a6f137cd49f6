namespace BosFlow.Media.Video;

/// <summary>Frames that one run of the decoder delivers.</summary>
/// <param name="Key">Number of the key frame that decoding starts from; 0 for the start of the file.</param>
/// <param name="Indices">Numbers of the frames that are wanted, ascending.</param>
internal sealed record VideoBurst(int Key, IReadOnlyList<int> Indices)
{
    // Starting a decoder takes about as long as decoding this many small frames (judgement; 0.1 s on a laptop).
    private const int FramesWorthAStart = 60;

    /// <summary>Cuts the wanted frames where passing over those between them would cost more than a fresh start at a key frame.</summary>
    /// <param name="packets">The frames by their packets.</param>
    /// <param name="indices">Numbers of the frames that are wanted, ascending.</param>
    internal static IEnumerable<VideoBurst> Split(PacketIndex packets, IReadOnlyList<int> indices)
    {
        var burst = new List<int>();
        int key = 0;
        int reached = 0;
        foreach (int index in indices)
        {
            // Without stamps a frame is known by counting from the start alone.
            int? start = packets.HasStamps && index < packets.Count ? packets.KeyIndex(index) : null;
            if (start - reached > FramesWorthAStart)
            {
                if (burst.Count > 0)
                    yield return new VideoBurst(key, burst);
                (burst, key) = ([], start!.Value);
            }

            burst.Add(index);
            reached = index;
        }

        if (burst.Count > 0)
            yield return new VideoBurst(key, burst);
    }
}
