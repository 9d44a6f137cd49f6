using BosFlow.Footage;
using BosFlow.Media.Pictures;

namespace BosFlow.Media.Video;

/// <summary>Opens a video with the decoder that the settings name.</summary>
internal static class VideoOpener
{
    internal static IFootage Open(FootageSettings settings, string baseFolder, CancellationToken cancellationToken) =>
        Open(settings, baseFolder, settings.Decoder == VideoDecoder.Embedded ? null : ExternalTools.Find(), cancellationToken);

    /// <summary>The same with the tools as a parameter, so that tests can take them away.</summary>
    internal static IFootage Open(FootageSettings settings, string baseFolder, ExternalTools? tools, CancellationToken cancellationToken)
    {
        string path = Path.GetFullPath(settings.Video!, baseFolder);
        string name = Path.GetRelativePath(baseFolder, path);
        CheckContent(path, name);
        if (settings.Decoder == VideoDecoder.Ffmpeg && tools is null)
            throw new InputDataException("footage.decoder asks for ffmpeg, but ffmpeg and ffprobe are not both on PATH: install ffmpeg, or leave the key out.");
        return tools is null
            ? EmbeddedFootage.Open(path, name, settings.FrameRateHz, cancellationToken)
            : FfmpegFootage.Open(tools, path, name, settings.FrameRateHz, cancellationToken);
    }

    // Both decoders would take a text or a single picture for a video of a kind; neither is footage.
    private static void CheckContent(string path, string name)
    {
        byte[] start = new byte[64];
        using Stream stream = InputFile.Open(path, name);
        ReadOnlySpan<byte> first = start.AsSpan(0, stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false));
        bool picture = first.StartsWith(PngHeader.Signature) || first.StartsWith(JpegHeader.Signature) || TiffHeader.IsSignature(first) || first.StartsWith(BmpHeader.Signature);
        if (picture)
            throw new InputDataException($"{name} is a picture, not a video: give it under footage.frames.");
        if (first.IndexOfAnyExceptInRange((byte)9, (byte)126) < 0)
            throw new InputDataException($"{name} is no video, whatever its name says: it looks like text; give an MP4, MOV, AVI or MKV file.");
    }
}
