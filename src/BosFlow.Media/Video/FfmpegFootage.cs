using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Footage that is a video, decoded by ffmpeg: native luma codes and exact time stamps.</summary>
internal sealed class FfmpegFootage : IFootage
{
    private readonly ExternalTools tools;
    private readonly string path;
    private readonly string name;
    private readonly VideoStream stream;
    private readonly PacketIndex packets;
    private readonly bool isStrict;
    private readonly PictureStock stock = new();

    private FfmpegFootage(ExternalTools tools, string path, string name, VideoStream stream, PacketIndex packets, bool isStrict, FootageInfo info)
    {
        this.tools = tools;
        this.path = path;
        this.name = name;
        this.stream = stream;
        this.packets = packets;
        this.isStrict = isStrict;
        Info = info;
    }

    public FootageInfo Info { get; }

    /// <exception cref="InputDataException">The file is no video that can be read, or holds no frame.</exception>
    internal static FfmpegFootage Open(ExternalTools tools, string path, string name, double? frameRateHz, CancellationToken cancellationToken)
    {
        VideoStream stream = StreamProbe.Read(tools, path, name, cancellationToken);
        ToolOutput listing = ToolRun.Collect(
            tools.Ffprobe,
            ["-hide_banner", "-v", "error", "-protocol_whitelist", "file", "-select_streams", FormattableString.Invariant($"{stream.Index}"),
             "-show_entries", "packet=pts,dts,flags", "-of", "csv=p=0", "-i", "file:" + path],
            tools.Patience,
            cancellationToken);
        PacketIndex packets = PacketIndex.Parse(listing.Output, isCut: false);
        int frames = VideoDescription.FrameCount(stream, packets, listing.Errors);
        if (frames > packets.Count || listing.Errors.Length > 0)
            packets = PacketIndex.Parse(listing.Output, isCut: true);
        FootageInfo info = VideoDescription.Describe(tools, path, name, frameRateHz, stream, packets, frames, listing.Errors);
        // Some cameras break small rules of the format in every frame. Then strict decoding gives nothing and is given up.
        bool isStrict = GivesFrames(tools, path, stream, isStrict: true, cancellationToken) || !GivesFrames(tools, path, stream, isStrict: false, cancellationToken);
        if (!isStrict)
            info = info with { Warnings = [.. info.Warnings, $"{name} breaks rules of its format in every frame, so it is decoded leniently: damage inside it is not noticed."] };
        return new FfmpegFootage(tools, path, name, stream, packets, isStrict, info);
    }

    private static bool GivesFrames(ExternalTools tools, string path, VideoStream stream, bool isStrict, CancellationToken cancellationToken)
    {
        using FfmpegDecoder decoder = FfmpegDecoder.Start(tools, path, stream, isStrict, fromSeconds: null, cancellationToken);
        return decoder.Frames(cancellationToken).Any();
    }

    // The memory of a turned picture is not from the stock.
    public void GiveBack(GrayImage picture)
    {
        if (stream.Orientation == Orientation.Upright)
            stock.Give(picture);
    }

    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(indices);
        foreach (VideoBurst burst in VideoBurst.Split(packets, indices))
        {
            foreach (Frame frame in ReadBurst(burst, cancellationToken))
                yield return frame;
        }
    }

    private IEnumerable<Frame> ReadBurst(VideoBurst burst, CancellationToken cancellationToken)
    {
        IReadOnlyList<int> indices = burst.Indices;
        var tracker = new DamageTracker(packets, Info.FrameCount, burst.Key);
        var wanted = new HashSet<int>(indices);
        var waiting = new Dictionary<int, GrayImage>();
        int next = 0;
        bool overshot = burst.Key > 0;
        using FfmpegDecoder decoder = FfmpegDecoder.Start(tools, path, stream, isStrict, SeekSeconds(burst.Key), cancellationToken);
        foreach ((int index, byte[] bytes) in Numbered(decoder, cancellationToken))
        {
            overshot &= index > burst.Key;
            if (overshot)
                break;
            tracker.Came(index);
            if (wanted.Contains(index))
                waiting[index] = Picture(bytes);
            for (; next < indices.Count && tracker.IsDecided(indices[next]); next++)
                yield return Delivered(indices[next], tracker, waiting, decoder.Complaint);
            if (next == indices.Count)
                yield break;
        }

        if (overshot)
        {
            // The key frame did not come, so that what comes cannot be trusted: decoding from the start of the file is slow but sure.
            foreach (Frame frame in ReadBurst(burst with { Key = 0 }, cancellationToken))
                yield return frame;
            yield break;
        }

        tracker.End();
        for (; next < indices.Count; next++)
            yield return Delivered(indices[next], tracker, waiting, decoder.Complaint);
    }

    // Half-way to the next frame: a rounded stamp of the key frame itself might lie before it.
    private double? SeekSeconds(int key)
    {
        if (key == 0)
            return null;
        long after = key + 1 < packets.Stamps.Count ? packets.Stamps[key + 1] : packets.Stamps[key] + 1;
        return (packets.Stamps[key] + after) / 2.0 * stream.TickSeconds;
    }

    // A frame is known by its time stamp. Without stamps in the container the decoder's own count from its first frame.
    private IEnumerable<(int Index, byte[] Bytes)> Numbered(FfmpegDecoder decoder, CancellationToken cancellationToken)
    {
        long? first = null;
        int came = 0;
        foreach (DecodedFrame frame in decoder.Frames(cancellationToken))
        {
            first ??= frame.Stamp;
            int? index = packets.HasStamps
                ? frame.Stamp is long stamp ? packets.IndexOf(stamp) : null
                : frame.Stamp - first is long ticks && double.IsFinite(stream.MeanRateHz) ? (int)Math.Round(ticks * stream.TickSeconds * stream.MeanRateHz) : came;
            came++;
            if (index is int number && number < Info.FrameCount)
                yield return (number, frame.Bytes);
        }
    }

    private GrayImage Picture(byte[] bytes)
    {
        GrayImage stored = RawGray.Picture(bytes, stream.StoredWidth, stream.StoredHeight, stream.Format.Bytes, stream.WhiteLevel, stock);
        GrayImage shown = OrientationTurn.Apply(stored, stream.Orientation);
        if (stream.Orientation != Orientation.Upright)
            stock.Give(stored);
        return shown;
    }

    private Frame Delivered(int index, DamageTracker tracker, Dictionary<int, GrayImage> waiting, string complaint)
    {
        waiting.Remove(index, out GrayImage? image);
        string? failure = null;
        string reason = complaint.Length > 0 ? $" (ffmpeg: {complaint})" : "";
        if (index >= packets.Count)
            failure = FormattableString.Invariant($"Frame {index} of {name} is promised by the container, but the file ends before it: the recording was cut off, so copy it again from the camera or leave the frame out (footage.use).");
        else if (tracker.IsMissing(index) || image is null)
            failure = FormattableString.Invariant($"Frame {index} of {name} cannot be decoded: the file is damaged there{reason}.");
        else if (tracker.Culprit(index) is int culprit)
            (image, failure) = (null, FormattableString.Invariant($"Frame {index} of {name} is coded as a difference from damaged frame {culprit} and cannot be trusted."));
        return new Frame(index, Info.TimesSeconds[index], FormattableString.Invariant($"{name} frame {index}"), image, failure);
    }
}
