using System.Globalization;
using BosFlow.Media.Video;

namespace BosFlow.Media.Tests;

/// <summary>Small video files, encoded by the ffmpeg that continuous integration installs.</summary>
internal static class ClipMaker
{
    internal const int Width = 64;
    internal const int Height = 48;

    internal static ExternalTools Tools { get; } = ExternalTools.Find() ?? throw new InvalidOperationException("The tests of video need ffmpeg and ffprobe on PATH.");

    /// <summary>Runs ffmpeg and insists that it succeeds.</summary>
    internal static void Ffmpeg(params string[] arguments)
    {
        ToolOutput output = ToolRun.Collect(Tools.Ffmpeg, ["-hide_banner", "-nostdin", "-v", "error", "-y", .. arguments], CancellationToken.None);
        Assert.True(output.ExitCode == 0, output.Errors);
    }

    /// <summary>A moving test pattern with noise, so that every frame differs.</summary>
    /// <param name="path">File to write.</param>
    /// <param name="frames">Number of frames, 25 a second.</param>
    /// <param name="options">Encoder and container options.</param>
    internal static void Pattern(string path, int frames, params string[] options) => Ffmpeg(
    [
        "-f", "lavfi", "-i", string.Create(CultureInfo.InvariantCulture, $"testsrc2=size={Width}x{Height}:rate=25,noise=alls=30:allf=t:all_seed=7"),
        "-frames:v", frames.ToString(CultureInfo.InvariantCulture), .. options, "file:" + path,
    ]);

    /// <summary>The luma codes of all frames as ffmpeg takes them out of the file, for comparison: an independent path without our options.</summary>
    internal static byte[] Luma(string path, string pixelFormat = "gray")
    {
        string raw = path + ".raw";
        Ffmpeg("-i", "file:" + path, "-vf", "extractplanes=y", "-fps_mode", "passthrough", "-pix_fmt", pixelFormat, "-f", "rawvideo", "file:" + raw);
        return File.ReadAllBytes(raw);
    }
}
