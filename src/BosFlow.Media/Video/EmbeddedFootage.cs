using BosFlow.Footage;
using BosFlow.Media.Pictures;
using OpenCvSharp;

namespace BosFlow.Media.Video;

/// <summary>Footage that is a video, decoded by OpenCV where ffmpeg is missing: 8 bit, time stamps of whole milliseconds.</summary>
internal sealed class EmbeddedFootage : IFootage
{
    private readonly string path;
    private readonly string name;
    private readonly EmbeddedStream stream;

    private EmbeddedFootage(string path, string name, EmbeddedStream stream, FootageInfo info)
    {
        this.path = path;
        this.name = name;
        this.stream = stream;
        Info = info;
    }

    public FootageInfo Info { get; }

    /// <exception cref="InputDataException">The file is no video that can be read, or holds no frame.</exception>
    internal static EmbeddedFootage Open(string path, string name, double? frameRateHz, CancellationToken cancellationToken)
    {
        EmbeddedStream stream = EmbeddedStream.Probe(path, name, cancellationToken);
        int frames = Math.Max(stream.StampsMilliseconds.Count, stream.PromisedFrames);
        double start = stream.StampsMilliseconds[0];
        double[] times = [.. Enumerable.Range(0, frames).Select(index =>
            frameRateHz is double rate ? index / rate
            : index < stream.StampsMilliseconds.Count ? (stream.StampsMilliseconds[index] - start) / 1000
            : double.NaN)];
        var info = new FootageInfo
        {
            Width = stream.Size.Width,
            Height = stream.Size.Height,
            TimesSeconds = times,
            Files = [path],
            Description = FormattableString.Invariant(
                $"video, {stream.Codec} (8 bit, {(stream.IsLuma ? stream.WhiteLevel == 255 ? "full range, native luma" : "limited range, native luma" : "luma from RGB")}), decoded by OpenCV {Cv2.GetVersionString()}"),
            Warnings = [.. Cautions(name, frameRateHz, stream, frames)],
        };
        return new EmbeddedFootage(path, name, stream, info);
    }

    public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(indices);
        // Always from the start: OpenCV's own seeking is by counted frames and cannot be checked against exact stamps.
        using VideoCapture capture = EmbeddedStream.OpenCapture(path, name, stream.IsLuma);
        using var picture = new Mat();
        int position = -1;
        bool more = true;
        foreach (int index in indices)
        {
            while (more && position < index)
            {
                cancellationToken.ThrowIfCancellationRequested();
                more = capture.Grab();
                position += more ? 1 : 0;
            }

            bool came = more && position == index && capture.Retrieve(picture) && !picture.Empty();
            yield return Delivered(index, came ? picture : null);
        }
    }

    private Frame Delivered(int index, Mat? picture)
    {
        GrayImage? image = null;
        string? failure = null;
        if (picture is null)
            failure = FormattableString.Invariant($"Frame {index} of {name} is promised by the container, but does not come out of the decoder: the recording is damaged or was cut off.");
        else if (picture.Cols != stream.StoredWidth || picture.Rows != stream.StoredHeight)
            failure = FormattableString.Invariant($"Frame {index} of {name} is {picture.Cols} x {picture.Rows} px, but the first is {stream.StoredWidth} x {stream.StoredHeight}.");
        else
            image = OrientationTurn.Apply(new GrayImage(picture.Cols, picture.Rows, Luma.Of(picture), stream.WhiteLevel), stream.Orientation);
        return new Frame(index, Info.TimesSeconds[index], FormattableString.Invariant($"{name} frame {index}"), image, failure);
    }

    private static IEnumerable<string> Cautions(string name, double? frameRateHz, EmbeddedStream stream, int frames)
    {
        yield return $"ffmpeg was not used, so {name} is decoded to 8 bits and damage inside it is not noticed: install ffmpeg for the full depth.";
        if (!stream.IsLuma)
            yield return $"{name} comes as red, green and blue stretched to full range, from which the luma is computed back (ITU-R BT.601); install ffmpeg to read the camera's own luma.";
        if (frames > stream.StampsMilliseconds.Count)
            yield return FormattableString.Invariant($"{name} promises {frames} frames but only {stream.StampsMilliseconds.Count} come: the recording was cut off, and the frames that are missing count as failed; copy it again from the camera, or use the frames that are there (footage.use).");
        yield return frameRateHz is double rate
            ? FormattableString.Invariant($"The times are counted with footage.frame_rate_hz = {rate}; the time stamps of {name} are not used; remove the key to use them.")
            : $"The times of {name} are rounded to whole milliseconds; install ffmpeg to read them exactly.";
    }
}
