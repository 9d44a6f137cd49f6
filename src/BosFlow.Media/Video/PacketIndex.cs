using System.Globalization;

namespace BosFlow.Media.Video;

/// <summary>The frames of a video by their packets: time stamp, and which frames each one is decoded from.</summary>
/// <remarks>A packet stands in the file where it is decoded; its time stamp says where it is shown. The two orders differ where frames are predicted from later ones.</remarks>
internal sealed class PacketIndex
{
    private readonly Dictionary<long, int> indexByStamp = [];
    private readonly int[] decodedAt;
    private readonly int[] groupStart;
    private readonly int[] knownAfter;
    private readonly int[] keyIndices;

    private PacketIndex(List<(long? Stamp, bool IsKey, bool IsShown)> packets)
    {
        List<int> shown = [.. Enumerable.Range(0, packets.Count).Where(position => packets[position].IsShown)];
        HasStamps = shown.Count > 0 && shown.All(position => packets[position].Stamp is not null)
            && shown.Select(position => packets[position].Stamp).Distinct().Count() == shown.Count;
        // Without stamps (H.264 in AVI) the order of the file stands in for the order of display.
        if (HasStamps)
            shown.Sort((first, second) => packets[first].Stamp!.Value.CompareTo(packets[second].Stamp!.Value));
        Count = shown.Count;
        Stamps = HasStamps ? [.. shown.Select(position => packets[position].Stamp!.Value)] : [];
        for (int index = 0; index < Stamps.Count; index++)
            indexByStamp[Stamps[index]] = index;
        decodedAt = [.. shown];
        (groupStart, knownAfter) = Groups(packets, shown, HasStamps);
        keyIndices = KeyIndices(shown, groupStart);
    }

    /// <summary>Frames that the file holds and whose numbers are known.</summary>
    internal int Count { get; }

    /// <summary>Frames that the file holds.</summary>
    internal int HeldCount { get; private init; }

    /// <summary>Packets that are decoded but not shown (before the start of a trimmed clip).</summary>
    internal int HiddenCount { get; private init; }

    /// <summary>Every frame carries its own time stamp.</summary>
    internal bool HasStamps { get; }

    /// <summary>Time stamps by frame number, ticks, ascending; empty where the container has none.</summary>
    internal IReadOnlyList<long> Stamps { get; }

    /// <summary>Number of the frame with a time stamp; null where there is none such.</summary>
    internal int? IndexOf(long stamp) => indexByStamp.TryGetValue(stamp, out int index) ? index : null;

    /// <summary>Place of a frame in the order of decoding.</summary>
    internal int DecodedAt(int index) => decodedAt[index];

    /// <summary>Place, in the order of decoding, of the key frame that decoding of a frame can start from.</summary>
    internal int GroupStart(int index) => groupStart[index];

    /// <summary>Number of the key frame that decoding of a frame can start from; null where that frame is not shown.</summary>
    internal int? KeyIndex(int index) => keyIndices[index] >= 0 ? keyIndices[index] : null;

    /// <summary>Highest number of the frames decoded up to this one: once it has come or failed to come, all this frame depends on is known.</summary>
    internal int KnownAfter(int index) => knownAfter[index];

    /// <summary>Reads ffprobe's lines "pts,dts,flags", in the order of the file.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="isCut">The file ends before its last packet.</param>
    /// <remarks>
    /// Where the file is cut, a frame shown after the last packet's time of decoding may have lost frames before it, so
    /// that its number is not known; such frames (those that later ones were to be predicted from) are left out.
    /// </remarks>
    internal static PacketIndex Parse(string lines, bool isCut)
    {
        var packets = new List<(long? Stamp, bool IsKey, bool IsShown)>();
        long? lastDecoded = null;
        foreach (string line in lines.Split('\n'))
        {
            string[] fields = line.Split(',');
            // Side data of a packet stand on lines of their own and are of no interest.
            if (fields.Length < 3 || fields[2].Length < 2 || fields[2][0] is not ('K' or '_'))
                continue;
            long? stamp = long.TryParse(fields[0], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long ticks) ? ticks : null;
            if (long.TryParse(fields[1], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long decoded))
                lastDecoded = decoded;
            packets.Add((stamp, fields[2][0] == 'K', fields[2][1] != 'D'));
        }

        int held = packets.Count(static packet => packet.IsShown);
        if (isCut && lastDecoded is long end)
            packets = [.. packets.Select(packet => packet with { IsShown = packet.IsShown && !(packet.Stamp > end) })];
        return new PacketIndex(packets) { HeldCount = held, HiddenCount = packets.Count - held };
    }

    private static int[] KeyIndices(List<int> shown, int[] groupStart)
    {
        var indexAt = new Dictionary<int, int>();
        for (int index = 0; index < shown.Count; index++)
            indexAt[shown[index]] = index;
        return [.. groupStart.Select(position => indexAt.GetValueOrDefault(position, -1))];
    }

    private static (int[] GroupStart, int[] KnownAfter) Groups(List<(long? Stamp, bool IsKey, bool IsShown)> packets, List<int> shown, bool hasStamps)
    {
        int[] indexAt = new int[packets.Count];
        Array.Fill(indexAt, -1);
        for (int index = 0; index < shown.Count; index++)
            indexAt[shown[index]] = index;
        int[] groupStart = new int[shown.Count];
        int[] knownAfter = new int[shown.Count];
        int key = 0;
        int keyBefore = 0;
        int highest = -1;
        for (int position = 0; position < packets.Count; position++)
        {
            if (packets[position].IsKey)
                (keyBefore, key) = (key, position);
            int index = indexAt[position];
            if (index < 0)
                continue;
            highest = Math.Max(highest, index);
            // A frame shown before its key frame may be predicted from the group before.
            bool leads = hasStamps && packets[position].Stamp < packets[key].Stamp;
            groupStart[index] = leads ? keyBefore : key;
            // A damaged time stamp far ahead must not hold back all frames up to it.
            knownAfter[index] = Math.Min(highest, index + VideoLimits.MostReorderedFrames);
        }

        return (groupStart, knownAfter);
    }
}
