using BosFlow.Footage;
using OpenCvSharp;

namespace BosFlow.Benchmarks.Peers;

/// <summary>Pictures as OpenCV takes them.</summary>
internal static class EightBitPictures
{
    /// <summary>Grey levels of an 8-bit picture; they are whole numbers already.</summary>
    public static byte[] Bytes(GrayImage picture)
    {
        byte[] bytes = new byte[picture.Pixels.Length];
        for (int i = 0; i < bytes.Length; i++)
            bytes[i] = checked((byte)picture.Pixels[i]);
        return bytes;
    }

    public static Mat ToMat(GrayImage picture) => Mat.FromPixelData(picture.Height, picture.Width, MatType.CV_8UC1, Bytes(picture));
}
