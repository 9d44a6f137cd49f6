using System.Globalization;

namespace BosFlow.Media.Video;

/// <summary>ffmpeg and ffprobe as they were found on this machine.</summary>
/// <param name="Ffmpeg">Path of ffmpeg.</param>
/// <param name="Ffprobe">Path of ffprobe.</param>
/// <param name="Version">First words of ffmpeg's version line, such as "5.1.9-0+deb12u1".</param>
internal sealed record ExternalTools(string Ffmpeg, string Ffprobe, string Version)
{
    /// <summary>How long a tool may give nothing: longer than a sleeping disk takes to wake, or a network to come back.</summary>
    internal static TimeSpan StandardPatience { get; } = TimeSpan.FromMinutes(5);

    /// <summary>How long these tools may give nothing while they are waited for.</summary>
    internal TimeSpan Patience { get; init; } = StandardPatience;

    /// <summary>Options that deliver every frame once with its own time stamp; the option was renamed in version 5.1.</summary>
    internal string[] KeepEveryFrame => IsBefore51 ? ["-vsync", "passthrough"] : ["-fps_mode", "passthrough"];

    /// <summary>Whether the version is below 6.</summary>
    internal bool IsBefore6 => int.TryParse(Version.Split('.', '-')[0], NumberStyles.None, CultureInfo.InvariantCulture, out int major) && major < 6;

    private bool IsBefore51 =>
        Version.Split('.', '-') is [string major, string minor, ..]
        && int.TryParse(major, NumberStyles.None, CultureInfo.InvariantCulture, out int first)
        && int.TryParse(minor, NumberStyles.None, CultureInfo.InvariantCulture, out int second)
        && (first < 5 || (first == 5 && second < 1));

    /// <summary>The tools on PATH; null where one of them is missing or does not start.</summary>
    internal static ExternalTools? Find() => Find(Environment.GetEnvironmentVariable("PATH") ?? "");

    /// <summary>The tools in the folders of a search path.</summary>
    internal static ExternalTools? Find(string searchPath)
    {
        string? ffmpeg = Locate("ffmpeg", searchPath);
        string? ffprobe = Locate("ffprobe", searchPath);
        if (ffmpeg is null || ffprobe is null)
            return null;
        string? version = VersionOf(ffmpeg);
        return version is null ? null : new ExternalTools(ffmpeg, ffprobe, version);
    }

    private static string? Locate(string tool, string searchPath) =>
        searchPath.Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Select(folder => Path.Combine(folder, tool))
            .FirstOrDefault(File.Exists);

    private static string? VersionOf(string tool)
    {
        try
        {
            ToolOutput output = ToolRun.Collect(tool, ["-hide_banner", "-version"], CancellationToken.None);
            string[] words = output.Output.Split(' ', 4);
            return output.ExitCode == 0 && words.Length >= 3 && words[1] == "version" ? words[2] : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            // Found, but not allowed or not able to run: as good as missing.
            return null;
        }
    }
}
