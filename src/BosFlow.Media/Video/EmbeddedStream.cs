using BosFlow.Media.Pictures;
using OpenCvSharp;

namespace BosFlow.Media.Video;

/// <summary>What OpenCV's decoder says of a video, found by running once through it.</summary>
internal sealed record EmbeddedStream
{
    // ffmpeg's tag of 8-bit planar 4:2:0, little-endian "I420", and of 8-bit grey, "Y800".
    private const int Planar420 = 0x30323449;
    private const int Gray8 = 0x30303859;

    internal required string Codec { get; init; }

    internal required int StoredWidth { get; init; }

    internal required int StoredHeight { get; init; }

    internal required Orientation Orientation { get; init; }

    /// <summary>The decoder hands over the luma plane; else red, green and blue.</summary>
    internal required bool IsLuma { get; init; }

    internal required float WhiteLevel { get; init; }

    /// <summary>Frames that the container promises; 0 where it only estimates them.</summary>
    internal required int PromisedFrames { get; init; }

    /// <summary>Time stamps of the frames that come, whole milliseconds.</summary>
    internal required IReadOnlyList<double> StampsMilliseconds { get; init; }

    internal (int Width, int Height) Size => OrientationTurn.Size(StoredWidth, StoredHeight, Orientation);

    /// <exception cref="InputDataException">The file cannot be opened as a video, or no frame comes out of it.</exception>
    internal static EmbeddedStream Probe(string path, string name, CancellationToken cancellationToken)
    {
        using VideoCapture capture = OpenCapture(path, name, luma: true);
        int width = (int)capture.Get(VideoCaptureProperties.FrameWidth);
        int height = (int)capture.Get(VideoCaptureProperties.FrameHeight);
        PictureLimits.Check(width, height, name);
        // Of more than 8 bits the plane is handed over wrongly, so only the formats known to be right are taken so.
        bool luma = (int)capture.Get(VideoCaptureProperties.CodecPixelFormat) is Planar420 or Gray8;
        Orientation orientation = Turned(capture.Get(VideoCaptureProperties.OrientationMeta));
        int counted = VideoLimits.Promised(capture.Get(VideoCaptureProperties.FrameCount));
        var stamps = new List<double>();
        while (capture.Grab())
        {
            cancellationToken.ThrowIfCancellationRequested();
            stamps.Add(capture.Get(VideoCaptureProperties.PosMsec));
        }

        if (stamps.Count == 0)
            throw new InputDataException($"{name} holds no frame that can be decoded: it is damaged, or was cut off before its first frame.");
        return new EmbeddedStream
        {
            Codec = Letters((int)capture.Get(VideoCaptureProperties.FourCC)),
            StoredWidth = width,
            StoredHeight = height,
            Orientation = orientation,
            IsLuma = luma,
            WhiteLevel = luma && !IsFullRange(path, name) ? 235 : 255,
            // Of other containers OpenCV estimates a count from duration and mean rate: no promise.
            PromisedFrames = ContainerSignature.IsMp4(path) || ContainerSignature.IsAvi(path) ? counted : 0,
            StampsMilliseconds = stamps,
        };
    }

    internal static VideoCapture OpenCapture(string path, string name, bool luma)
    {
        QuietOpenCv.Ensure();
        var capture = new VideoCapture(path, VideoCaptureAPIs.FFMPEG);
        if (!capture.IsOpened())
        {
            capture.Dispose();
            throw new InputDataException($"{name} is no video that can be read: it is damaged, was cut off before the camera closed it, or holds no video stream; copy it again from the camera, or give an MP4, MOV, AVI or MKV file.");
        }

        capture.Set(VideoCaptureProperties.OrientationAuto, 0);
        capture.Set(VideoCaptureProperties.ConvertRgb, luma ? 0 : 1);
        return capture;
    }

    // The decoder does not tell the range. It does stretch limited range when it converts to RGB, so the first frame
    // with a picture on it tells: its luma computed from RGB is then 255/219 (Y - 16), and Y itself for full range.
    private static bool IsFullRange(string path, string name)
    {
        using VideoCapture planes = OpenCapture(path, name, luma: true);
        using VideoCapture colours = OpenCapture(path, name, luma: false);
        using var plane = new Mat();
        using var colour = new Mat();
        if (!planes.Read(plane) || !colours.Read(colour))
            return false;
        float[] luma = Luma.Of(plane);
        float[] computed = Luma.Of(colour);
        double asFull = 0;
        double asLimited = 0;
        for (int i = 0; i < luma.Length; i++)
        {
            asFull += Math.Abs(computed[i] - luma[i]);
            asLimited += Math.Abs(computed[i] - Math.Clamp((luma[i] - 16) * 255 / 219, 0, 255));
        }

        return asFull < asLimited;
    }

    // Degrees clockwise.
    private static Orientation Turned(double degrees) => (int)degrees switch
    {
        90 => Orientation.QuarterTurnClockwise,
        180 => Orientation.HalfTurn,
        270 => Orientation.QuarterTurnCounterClockwise,
        _ => Orientation.Upright,
    };

    private static string Letters(int code) => new([(char)(code & 0xFF), (char)((code >> 8) & 0xFF), (char)((code >> 16) & 0xFF), (char)((code >> 24) & 0xFF)]);
}
