using BosFlow.Footage;
using BosFlow.Media.Video;

namespace BosFlow.Media;

/// <summary>Writes grey pictures as a video: H.264 by ffmpeg where it is there, else lossless FFV1 by OpenCV.</summary>
/// <remarks>
/// The grey levels become the 8-bit luma codes themselves (full range, marked so): level / white level * 255, rounded,
/// clamped to 0 to 255, NaN as 0. H.264 is nearly lossless (constant quality 6) and encoded by one thread, so that the
/// same frames give the same file on every machine with the same encoder. Written under a temporary name, then renamed.
/// </remarks>
public static class VideoFileWriter
{
    /// <summary>Writes a video.</summary>
    /// <param name="path">File to write, ending in .mp4, .mov or .mkv; replaced if it exists. Without ffmpeg the ending becomes .avi.</param>
    /// <param name="frames">At least one picture, all of one size and with a white level; taken one at a time.</param>
    /// <param name="frameRateHz">Frames a second, above 0.</param>
    /// <param name="cancellationToken">Stops between two frames and leaves no file.</param>
    /// <returns>The file and how it was encoded.</returns>
    /// <exception cref="ArgumentException">There is no frame, frames differ in size, or one has no white level.</exception>
    /// <exception cref="InputDataException">The folder does not exist, or the encoder fails, for instance since the disk is full.</exception>
    public static WrittenVideo Write(string path, IEnumerable<GrayImage> frames, double frameRateHz, CancellationToken cancellationToken) =>
        Write(path, frames, frameRateHz, ExternalTools.Find(), cancellationToken);

    /// <summary>Writes a video as a camera would, by ffmpeg.</summary>
    /// <param name="path">File to write, ending in .mp4, .mov or .mkv; replaced if it exists.</param>
    /// <param name="frames">At least one picture, all of one size and with a white level; taken one at a time.</param>
    /// <param name="frameRateHz">Frames a second, above 0.</param>
    /// <param name="encoding">Codec, rate, bits, rotation, pauses.</param>
    /// <param name="cancellationToken">Stops between two frames and leaves no file.</param>
    /// <returns>The file and how it was encoded.</returns>
    /// <exception cref="ArgumentException">There is no frame, frames differ in size, or one has no white level.</exception>
    /// <exception cref="InputDataException">ffmpeg or its encoder is missing, the folder does not exist, or the encoder fails.</exception>
    public static WrittenVideo Write(string path, IEnumerable<GrayImage> frames, double frameRateHz, VideoEncoding encoding, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(encoding);
        return Write(path, frames, frameRateHz, encoding, encoding.RequireTools(ExternalTools.Find(), cancellationToken), cancellationToken);
    }

    /// <summary>The same with the tools as a parameter, so that tests can take them away.</summary>
    internal static WrittenVideo Write(string path, IEnumerable<GrayImage> frames, double frameRateHz, ExternalTools? tools, CancellationToken cancellationToken)
    {
        var encoding = new VideoEncoding();
        bool useFfmpeg = tools is not null && FfmpegEncoder.Has(tools, encoding.Encoder, cancellationToken);
        return Write(path, frames, frameRateHz, encoding, useFfmpeg ? tools : null, cancellationToken);
    }

    private static WrittenVideo Write(string path, IEnumerable<GrayImage> frames, double frameRateHz, VideoEncoding encoding, ExternalTools? tools, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(frames);
        if (!(frameRateHz > 0 && double.IsFinite(frameRateHz)))
            throw new ArgumentOutOfRangeException(nameof(frameRateHz), frameRateHz, "The frame rate must be above 0.");
        string target = Path.GetFullPath(tools is not null ? path : Path.ChangeExtension(path, ".avi"));
        string folder = Path.GetDirectoryName(target)!;
        if (!Directory.Exists(folder))
            throw new InputDataException($"The video {target} cannot be written, since its folder does not exist: check the folder's name.");
        string temporary = Path.Combine(folder, $".{Path.GetFileNameWithoutExtension(target)}.unfinished{Path.GetExtension(target)}");
        try
        {
            int count = tools is not null
                ? FfmpegEncoder.Encode(tools, temporary, frames, frameRateHz, encoding, cancellationToken)
                : EmbeddedEncoder.Encode(temporary, frames, frameRateHz, cancellationToken);
            if (tools is not null && encoding.RotationDegrees != 0)
                TurnMark.Set(tools, temporary, encoding.RotationDegrees, cancellationToken);
            File.Move(temporary, target, overwrite: true);
            return new WrittenVideo(target, tools is not null ? Describe(encoding, tools) : $"FFV1, lossless, OpenCV {OpenCvSharp.Cv2.GetVersionString()}", count);
        }
        finally
        {
            File.Delete(temporary);
        }
    }

    private static string Describe(VideoEncoding encoding, ExternalTools tools) => FormattableString.Invariant(
        $"{encoding.CodecName}{(encoding.Bits == 8 ? "" : $", {encoding.Bits} bits")}, full-range luma{(encoding.MegabitsPerSecond is double rate ? $", {rate} Mbit/s" : "")}, ffmpeg {tools.Version}");
}
