using System.Text.RegularExpressions;
using BosFlow.Media.Video;
using OpenCvSharp;

namespace BosFlow.Media;

/// <summary>Checks what this machine must have outside the program to read footage.</summary>
public static partial class NativeLibraries
{
    /// <summary>OpenCV's native library with all it needs, and ffmpeg with ffprobe.</summary>
    public static IReadOnlyList<NativeLibraryStatus> Check() => [OpenCv(Cv2.GetVersionString), Ffmpeg(ExternalTools.Find())];

    internal static NativeLibraryStatus OpenCv(Func<string?> version)
    {
        const string name = "OpenCV";
        try
        {
            return new NativeLibraryStatus(name, true, true, version() ?? "version unknown");
        }
        catch (Exception failure) when (failure is TypeInitializationException or DllNotFoundException or BadImageFormatException)
        {
            string reason = Reason((failure.InnerException ?? failure).Message);
            return new NativeLibraryStatus(name, false, true, $"its native library does not load ({reason}): install what it needs with  apt-get install libgtk-3-0 libatomic1 libdrm2");
        }
    }

    // The loader's message lists every place it looked at; the one line that helps names the library that is missing.
    private static string Reason(string message)
    {
        Match missing = MissingLibrary().Match(message);
        return missing.Success ? $"{missing.Groups[1].Value} is missing" : message.Split('\n')[0].Trim().TrimEnd(':', '.');
    }

    [GeneratedRegex(@"((?!libOpenCvSharpExtern)\blib[\w.+-]+\.so[\w.]*): cannot open shared object file")]
    private static partial Regex MissingLibrary();

    internal static NativeLibraryStatus Ffmpeg(ExternalTools? tools) => tools is null
        ? new NativeLibraryStatus("ffmpeg", false, false, "ffmpeg and ffprobe are not both on PATH; video is then read with 8 bits and times of whole milliseconds: install them with  apt-get install ffmpeg")
        : new NativeLibraryStatus("ffmpeg", true, false, $"{tools.Version} ({tools.Ffmpeg})");
}
