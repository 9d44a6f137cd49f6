namespace BosFlow.Media.Video;

/// <summary>Marks a video so that players turn its pictures.</summary>
internal static class TurnMark
{
    /// <summary>Writes the mark; pictures and time stamps stay as they are.</summary>
    /// <exception cref="InputDataException">ffmpeg could not write.</exception>
    internal static void Set(ExternalTools tools, string path, int degrees, CancellationToken cancellationToken)
    {
        string turned = Path.Combine(Path.GetDirectoryName(path)!, ".turned." + Path.GetFileName(path));
        try
        {
            // Both count counter-clockwise; the turn became an option of the input in version 6.
            string[] input = tools.IsBefore6 ? [] : ["-display_rotation", FormattableString.Invariant($"{-degrees}")];
            string[] output = tools.IsBefore6 ? ["-metadata:s:v", FormattableString.Invariant($"rotate={360 - degrees}")] : [];
            ToolOutput result = ToolRun.Collect(
                tools.Ffmpeg,
                ["-hide_banner", "-nostdin", "-v", "error", "-y", .. input, "-i", "file:" + path, "-c", "copy", .. output, "-fflags", "+bitexact", "-movflags", "+faststart", "file:" + turned],
                cancellationToken);
            if (result.ExitCode != 0)
                throw new InputDataException($"The video {path} could not be marked as turned (ffmpeg: {result.Errors.Trim().Split('\n')[^1]}): check the folder, its permissions and the space on the disk.");
            File.Move(turned, path, overwrite: true);
        }
        finally
        {
            File.Delete(turned);
        }
    }
}
