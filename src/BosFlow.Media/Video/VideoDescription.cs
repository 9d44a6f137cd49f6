using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Puts together what is known of a video that ffmpeg reads.</summary>
internal static class VideoDescription
{
    // A last frame may be shown longer than the others, so a gap at the end counts from here on.
    private const double DurationGapFrames = 3;

    /// <summary>Frames that the container promises, or that the file holds where they are more.</summary>
    internal static int FrameCount(VideoStream stream, PacketIndex packets, string complaints)
    {
        // A trimmed MP4 may hold more frames than it shows; its count is a promise only where the file is broken.
        bool counts = !stream.Container.StartsWith("mov", StringComparison.Ordinal) || complaints.Length > 0;
        return counts ? Math.Max(packets.HeldCount, stream.PromisedFrames - packets.HiddenCount) : packets.HeldCount;
    }

    internal static FootageInfo Describe(
        ExternalTools tools, string path, string name, double? frameRateHz, VideoStream stream, PacketIndex packets, int frames, string complaints)
    {
        if (packets.Count == 0)
            throw new InputDataException($"{name} holds no frame: the recording was cut off before its first one, so take it again.");
        double[] times = Times(frameRateHz, stream, packets, frames);
        (int width, int height) = stream.Size;
        return new FootageInfo
        {
            Width = width,
            Height = height,
            TimesSeconds = times,
            Files = [path],
            Description = FormattableString.Invariant(
                $"video, {stream.Codec} {stream.PixelFormatName} ({stream.Format.Bits} bit, {(stream.IsFullRange ? "full" : "limited")} range, {(stream.Format.IsLuma ? "native luma" : "luma from RGB")}), decoded by ffmpeg {tools.Version}"),
            Warnings = [.. stream.Warnings, .. Cautions(name, frameRateHz, stream, packets, frames, times, complaints)],
        };
    }

    private static double[] Times(double? frameRateHz, VideoStream stream, PacketIndex packets, int frames)
    {
        double[] times = new double[frames];
        for (int index = 0; index < frames; index++)
        {
            if (frameRateHz is double rate)
                times[index] = index / rate;
            else if (!packets.HasStamps)
                times[index] = index / stream.MeanRateHz;
            else
                times[index] = index < packets.Count ? (packets.Stamps[index] - packets.Stamps[0]) * stream.TickSeconds : double.NaN;
        }

        return times;
    }

    private static IEnumerable<string> Cautions(
        string name, double? frameRateHz, VideoStream stream, PacketIndex packets, int frames, double[] times, string complaints)
    {
        double held = times[packets.Count - 1];
        if (frames > packets.Count)
            yield return FormattableString.Invariant($"{name} promises {frames} frames but ends after {packets.HeldCount}: the recording was cut off, and the frames that are missing count as failed; copy it again from the camera, or use the frames that are there (footage.use).");
        else if (frameRateHz is null && stream.PromisedSeconds - held > DurationGapFrames / stream.MeanRateHz && complaints.Length > 0)
            yield return FormattableString.Invariant($"{name} promises {stream.PromisedSeconds:0.###} s but its last frame is at {held:0.###} s: the recording was cut off; copy it again from the camera if more was filmed.");
        else if (complaints.Length > 0)
            yield return $"{name} is damaged (ffprobe: {complaints.Split('\n')[0].Trim()}); copy it again from the camera if frames fail.";
        if (frameRateHz is double rate)
            yield return FormattableString.Invariant($"The times are counted with footage.frame_rate_hz = {rate}; the time stamps of {name} are not used; remove the key to use them.");
        else if (!packets.HasStamps)
            yield return FormattableString.Invariant($"{name} has no time stamp for each frame: times are counted with its mean rate of {stream.MeanRateHz:0.###} Hz; give footage.frame_rate_hz if another one is right.");
        if (!stream.Format.IsLuma)
            yield return $"{name} holds red, green and blue: grey levels are luma computed from them (ITU-R BT.601); nothing need be done.";
    }
}
