using OpenCvSharp;

namespace BosFlow.Media;

/// <summary>Keeps OpenCV from writing to the console; what goes wrong is told by our own sentences.</summary>
internal static class QuietOpenCv
{
    // Runs once a process, before the first use; the level is OpenCV's own global.
    static QuietOpenCv() => Cv2.SetLogLevel(LogLevel.SILENT);

    /// <summary>Makes sure that OpenCV is quiet.</summary>
    internal static void Ensure()
    {
    }
}
