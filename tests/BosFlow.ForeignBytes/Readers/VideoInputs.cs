using BosFlow.Footage;
using BosFlow.Media;
using BosFlow.Media.Video;

namespace BosFlow.ForeignBytes.Readers;

/// <summary>Small videos in three containers, decoded to their last frame.</summary>
internal static class VideoInputs
{
    public static IReadOnlyList<Sample> Embedded(string folder) => Clips(folder, VideoDecoder.Embedded);

    public static IReadOnlyList<Sample> Ffmpeg(string folder) => Clips(folder, VideoDecoder.Ffmpeg);

    private static IReadOnlyList<Sample> Clips(string folder, VideoDecoder decoder) =>
    [
        Clip(folder, "clip.mp4", decoder, "-c:v", "libx264", "-pix_fmt", "yuv420p"),
        Clip(folder, "clip.avi", decoder, "-c:v", "mjpeg", "-pix_fmt", "yuvj420p"),
        Clip(folder, "clip.mkv", decoder, "-c:v", "ffv1", "-pix_fmt", "gray"),
    ];

    private static Sample Clip(string folder, string name, VideoDecoder decoder, params string[] options)
    {
        ExternalTools tools = ExternalTools.Find() ?? throw new InvalidOperationException("The videos are encoded by ffmpeg; put ffmpeg and ffprobe on PATH.");
        string file = Path.Combine(folder, name);
        string[] arguments = ["-hide_banner", "-nostdin", "-v", "error", "-f", "lavfi", "-i", "testsrc2=size=64x48:rate=25", "-frames:v", "5", "-threads", "1", "-fflags", "+bitexact", "-flags:v", "+bitexact", .. options, "file:" + file];
        ToolOutput output = ToolRun.Collect(tools.Ffmpeg, arguments, CancellationToken.None);
        return output.ExitCode == 0 ? new Sample(file, () => Read(folder, name, decoder)) : throw new InvalidOperationException(output.Errors);
    }

    private static void Read(string folder, string name, VideoDecoder decoder)
    {
        IFootage footage = FootageOpener.Open(new FootageSettings { Video = name, Decoder = decoder }, folder, CancellationToken.None);
        // As many as a run would ask for at a time; a damaged count may promise millions that never come.
        int[] indices = [.. Enumerable.Range(0, Math.Min(footage.Info.TimesSeconds.Count, 50))];
        string[] unclear = [.. footage.Read(indices, CancellationToken.None).Select(frame => frame.Failure).OfType<string>().Where(failure => !failure.Contains(name, StringComparison.Ordinal))];
        if (unclear.Length > 0)
            throw new InputDataException(unclear[0]);
    }
}
