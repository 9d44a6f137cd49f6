using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace BosFlow.Media.Video;

/// <summary>One run of ffmpeg that decodes a stream from its start, or from a key frame, and hands over each frame with its own time stamp.</summary>
/// <remarks>
/// The grey levels come over standard output; the time stamps over standard error, where the filter "showinfo" writes a
/// line a frame before the frame itself is written. A strict run refuses damaged frames (-err_detect explode) instead of
/// patching them up from their neighbours, so that they leave a gap in the time stamps.
/// </remarks>
internal sealed partial class FfmpegDecoder : IDisposable
{
    private const int MostErrors = 20;

    private readonly Process process;
    private readonly VideoStream stream;
    private readonly CancellationTokenRegistration registration;
    private readonly Patience patience;
    private readonly BlockingCollection<long?> stamps = [];
    private readonly ConcurrentQueue<string> errors = new();
    private double filterTick;
    private volatile bool sizeChanged;

    private FfmpegDecoder(Process process, VideoStream stream, TimeSpan limit, CancellationToken cancellationToken)
    {
        this.process = process;
        this.stream = stream;
        filterTick = stream.TickSeconds;
        process.ErrorDataReceived += (_, line) => Listen(line.Data);
        process.Start();
        process.BeginErrorReadLine();
        patience = new Patience(process, limit);
        registration = cancellationToken.Register(() => ToolRun.Kill(process));
    }

    /// <summary>What the decoder complained of, for messages; empty where it did not.</summary>
    internal string Complaint => errors.TryPeek(out string? first) ? first : "";

    /// <summary>Starts ffmpeg.</summary>
    /// <param name="tools">Where ffmpeg is.</param>
    /// <param name="path">The file.</param>
    /// <param name="stream">The stream.</param>
    /// <param name="isStrict">Whether damaged frames are refused.</param>
    /// <param name="fromSeconds">Time stamp to start from, s, by the container's clock; the key frame at or before it comes first. Null = the start of the file.</param>
    /// <param name="cancellationToken">Ends the process.</param>
    internal static FfmpegDecoder Start(ExternalTools tools, string path, VideoStream stream, bool isStrict, double? fromSeconds, CancellationToken cancellationToken)
    {
        string filter = stream.Format.Filter.Length > 0 ? stream.Format.Filter + ",showinfo=checksum=0" : "showinfo=checksum=0";
        string[] arguments =
        [
            "-hide_banner", "-nostdin", "-nostats", "-loglevel", "level+info",
            "-copyts", "-noautorotate", .. isStrict ? ["-err_detect", "explode"] : Array.Empty<string>(), "-protocol_whitelist", "file",
            // Frames are known by their stamps, so that it does not matter where before the wanted one the demuxer lands.
            .. fromSeconds is double seconds ? ["-noaccurate_seek", "-seek_timestamp", "1", "-ss", FormattableString.Invariant($"{seconds:F6}")] : Array.Empty<string>(), "-i", "file:" + path,
            "-map", FormattableString.Invariant($"0:{stream.Index}"), .. tools.KeepEveryFrame,
            "-vf", filter, "-pix_fmt", stream.Format.Delivered, "-f", "rawvideo", "pipe:1",
        ];
        return new FfmpegDecoder(ToolRun.Prepare(tools.Ffmpeg, arguments, feedInput: false), stream, tools.Patience, cancellationToken);
    }

    /// <summary>The frames in the order of display.</summary>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    /// <exception cref="InputDataException">ffmpeg gave nothing for too long and was ended.</exception>
    internal IEnumerable<DecodedFrame> Frames(CancellationToken cancellationToken)
    {
        byte[] buffer = new byte[checked(stream.StoredWidth * stream.StoredHeight * stream.Format.Bytes)];
        Stream output = process.StandardOutput.BaseStream;
        patience.Wait();
        while (output.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false) == buffer.Length)
        {
            cancellationToken.ThrowIfCancellationRequested();
            long? stamp = stamps.TryTake(out long? next, Timeout.Infinite, cancellationToken) ? next : null;
            // What is done with the frame is not ffmpeg's time.
            patience.Rest();
            // Later bytes would be read out of step; the frames from here on count as missing.
            if (sizeChanged)
                yield break;
            yield return new DecodedFrame(stamp, buffer);
            patience.Wait();
        }

        cancellationToken.ThrowIfCancellationRequested();
        // Waits for the last words as well.
        process.WaitForExit();
        patience.Rest();
        patience.ThrowIfOver("ffmpeg");
    }

    public void Dispose()
    {
        registration.Dispose();
        patience.Dispose();
        ToolRun.Kill(process);
        process.WaitForExit();
        process.Dispose();
        stamps.Dispose();
    }

    private void Listen(string? line)
    {
        if (line is null)
        {
            stamps.CompleteAdding();
            return;
        }

        if (FrameLine().Match(line) is { Success: true } frame)
            NoteFrame(frame);
        else if (TickLine().Match(line) is { Success: true } tick)
            filterTick = Integer(tick, "above") / (double)Integer(tick, "below");
        else if ((line.Contains("[error]", StringComparison.Ordinal) || line.Contains("[fatal]", StringComparison.Ordinal)) && errors.Count < MostErrors)
            errors.Enqueue(line[(line.LastIndexOf("] ", StringComparison.Ordinal) + 2)..].Trim());
    }

    private void NoteFrame(Match frame)
    {
        if (!sizeChanged && (Integer(frame, "width") != stream.StoredWidth || Integer(frame, "height") != stream.StoredHeight))
        {
            sizeChanged = true;
            errors.Enqueue(FormattableString.Invariant($"the picture size changes to {Integer(frame, "width")} x {Integer(frame, "height")} px inside the file"));
        }

        long? stamp = null;
        if (long.TryParse(frame.Groups["stamp"].ValueSpan, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long ticks))
            stamp = filterTick == stream.TickSeconds ? ticks : (long)Math.Round(ticks * filterTick / stream.TickSeconds);
        stamps.Add(stamp);
    }

    private static long Integer(Match match, string group) => long.Parse(match.Groups[group].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\[Parsed_showinfo.*\] n: *\d+ pts: *(?<stamp>\S+) .* s:(?<width>\d+)x(?<height>\d+) ", RegexOptions.CultureInvariant)]
    private static partial Regex FrameLine();

    [GeneratedRegex(@"^\[Parsed_showinfo.*config in time_base: (?<above>\d+)/(?<below>\d+)", RegexOptions.CultureInvariant)]
    private static partial Regex TickLine();
}
