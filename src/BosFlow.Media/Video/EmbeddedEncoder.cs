using BosFlow.Footage;
using OpenCvSharp;

namespace BosFlow.Media.Video;

/// <summary>Encodes lossless FFV1 in AVI by OpenCV.</summary>
internal static class EmbeddedEncoder
{
    /// <returns>Number of frames written.</returns>
    internal static int Encode(string path, IEnumerable<GrayImage> frames, double frameRateHz, CancellationToken cancellationToken)
    {
        VideoWriter? writer = null;
        int count = 0;
        try
        {
            foreach ((int width, int height, byte[] bytes) in GrayBytes.Of(frames, 8))
            {
                cancellationToken.ThrowIfCancellationRequested();
                writer ??= Open(path, width, height, frameRateHz);
                using Mat picture = Mat.FromPixelData(height, width, MatType.CV_8UC1, bytes);
                writer.Write(picture);
                count++;
            }
        }
        finally
        {
            writer?.Dispose();
        }

        return count > 0 ? count : throw new ArgumentException("There is no frame to write.", nameof(frames));
    }

    private static VideoWriter Open(string path, int width, int height, double frameRateHz)
    {
        QuietOpenCv.Ensure();
        var writer = new VideoWriter(path, VideoCaptureAPIs.FFMPEG, FourCC.FromString("FFV1"), frameRateHz, new Size(width, height), isColor: false);
        if (writer.IsOpened())
            return writer;
        writer.Dispose();
        throw new InputDataException($"The video {path} could not be written: check the folder, its permissions and the space on the disk.");
    }
}
