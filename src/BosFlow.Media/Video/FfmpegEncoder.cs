using System.Diagnostics;
using BosFlow.Footage;

namespace BosFlow.Media.Video;

/// <summary>Encodes video by an ffmpeg process.</summary>
internal static class FfmpegEncoder
{
    /// <summary>Whether this ffmpeg was built with an encoder.</summary>
    internal static bool Has(ExternalTools tools, string encoder, CancellationToken cancellationToken) =>
        ToolRun.Collect(tools.Ffmpeg, ["-hide_banner", "-v", "error", "-encoders"], cancellationToken).Output.Contains($" {encoder} ", StringComparison.Ordinal);

    /// <returns>Number of frames written.</returns>
    internal static int Encode(ExternalTools tools, string path, IEnumerable<GrayImage> frames, double frameRateHz, VideoEncoding encoding, CancellationToken cancellationToken)
    {
        int count = 0;
        Process? process = null;
        Task<string>? errors = null;
        CancellationTokenRegistration registration = default;
        try
        {
            foreach ((int width, int height, byte[] bytes) in GrayBytes.Of(frames, encoding.Bits))
            {
                cancellationToken.ThrowIfCancellationRequested();
                if (process is null)
                {
                    Process started = ToolRun.Prepare(tools.Ffmpeg, EncoderArguments.Of(tools, path, width, height, frameRateHz, encoding), feedInput: true);
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
}
