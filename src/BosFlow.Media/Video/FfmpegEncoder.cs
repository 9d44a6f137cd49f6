using System.Diagnostics;
using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Encodes H.264 by an ffmpeg process.</summary>
internal static class FfmpegEncoder
{
    /// <summary>Whether this ffmpeg was built with the H.264 encoder.</summary>
    internal static bool IsAvailable(ExternalTools tools, CancellationToken cancellationToken) =>
        ToolRun.Collect(tools.Ffmpeg, ["-hide_banner", "-v", "error", "-encoders"], cancellationToken).Output.Contains(" libx264 ", StringComparison.Ordinal);

    /// <returns>Number of frames written.</returns>
    internal static int Encode(ExternalTools tools, string path, IEnumerable<GrayImage> frames, double frameRateHz, CancellationToken cancellationToken)
    {
        int count = 0;
        Process? process = null;
        Task<string>? errors = null;
        CancellationTokenRegistration registration = default;
        try
        {
            foreach ((int width, int height, byte[] bytes) in GrayBytes.Of(frames))
            {
                cancellationToken.ThrowIfCancellationRequested();
                if (process is null)
                {
                    Process started = ToolRun.Prepare(tools.Ffmpeg, Arguments(path, width, height, frameRateHz), feedInput: true);
                    process = started;
                    started.Start();
                    registration = cancellationToken.Register(() => ToolRun.Kill(started));
                    errors = started.StandardError.ReadToEndAsync(CancellationToken.None);
                }

                process.StandardInput.BaseStream.Write(bytes);
                count++;
            }

            process?.StandardInput.Close();
        }
        catch (IOException) when (process is not null)
        {
            // The pipe broke because ffmpeg ended; its own message below says why.
            cancellationToken.ThrowIfCancellationRequested();
        }
        catch
        {
            if (process is not null)
                ToolRun.Kill(process);
            throw;
        }
        finally
        {
            process?.WaitForExit();
            registration.Dispose();
        }

        if (process is null)
            throw new ArgumentException("There is no frame to write.", nameof(frames));
        using (process)
        {
            cancellationToken.ThrowIfCancellationRequested();
            return process.ExitCode == 0
                ? count
                : throw new InputDataException($"The video {path} could not be written (ffmpeg: {errors!.GetAwaiter().GetResult().Trim().Split('\n')[^1]}): check the folder, its permissions and the space on the disk.");
        }
    }

    // 4:2:0 plays everywhere but needs even sides; odd ones keep every pixel with 4:4:4.
    private static string[] Arguments(string path, int width, int height, double frameRateHz) =>
    [
        "-hide_banner", "-v", "error", "-y",
        "-f", "rawvideo", "-pix_fmt", "gray", "-color_range", "pc", "-video_size", FormattableString.Invariant($"{width}x{height}"),
        "-framerate", FormattableString.Invariant($"{frameRateHz:R}"), "-i", "pipe:0",
        "-vf", FormattableString.Invariant($"scale=in_range=full:out_range=full,format={(width % 2 == 0 && height % 2 == 0 ? "yuvj420p" : "yuvj444p")}"),
        "-color_range", "pc", "-c:v", "libx264", "-preset", "veryfast", "-crf", "6", "-threads", "1",
        "-fflags", "+bitexact", "-flags", "+bitexact", "-movflags", "+faststart", "file:" + path,
    ];
}
