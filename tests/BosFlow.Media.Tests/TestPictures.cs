using BosFlow.Footage;
using OpenCvSharp;

namespace BosFlow.Media.Tests;

/// <summary>Small pictures with a known level in every pixel, and their files as OpenCV writes them.</summary>
internal static class TestPictures
{
    internal const int Width = 37;
    internal const int Height = 23;

    /// <summary>Levels that differ everywhere, so that a turned or shifted picture shows: 0 to 255.</summary>
    internal static byte Level(int x, int y, int channel = 0) => (byte)(((x * 7) + (y * 31) + (channel * 53) + (x * y)) % 256);

    internal static Mat Gray8(int width = Width, int height = Height)
    {
        var mat = new Mat(height, width, MatType.CV_8UC1);
        for (int y = 0; y < height; y++)
            for (int x = 0; x < width; x++)
                mat.Set(y, x, Level(x, y));
        return mat;
    }

    internal static Mat Gray16()
    {
        var mat = new Mat(Height, Width, MatType.CV_16UC1);
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
                mat.Set(y, x, Level16(x, y));
        return mat;
    }

    internal static ushort Level16(int x, int y) => (ushort)(((x * 1777) + (y * 911)) % 65536);

    internal static Mat Float()
    {
        var mat = new Mat(Height, Width, MatType.CV_32FC1);
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
                mat.Set(y, x, LevelFloat(x, y));
        return mat;
    }

    internal static float LevelFloat(int x, int y) => (x, y) switch
    {
        (5, 4) => float.NaN,
        (6, 4) => float.PositiveInfinity,
        _ => (x * 0.37f) - (y * 1.01f),
    };

    internal static Mat Colour8(bool alpha = false)
    {
        var mat = new Mat(Height, Width, alpha ? MatType.CV_8UC4 : MatType.CV_8UC3);
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
            {
                if (alpha)
                    mat.Set(y, x, new Vec4b(Level(x, y, 0), Level(x, y, 1), Level(x, y, 2), (byte)(x % 5)));
                else
                    mat.Set(y, x, new Vec3b(Level(x, y, 0), Level(x, y, 1), Level(x, y, 2)));
            }

        return mat;
    }

    internal static byte[] Encode(Mat mat, string ending, params int[] options)
    {
        Assert.True(Cv2.ImEncode(ending, mat, out byte[] bytes, options));
        return bytes;
    }

    internal static void AssertLevels(GrayImage image, Func<int, int, float> expected, float tolerance = 0)
    {
        Assert.Equal((Width, Height), (image.Width, image.Height));
        for (int y = 0; y < Height; y++)
            for (int x = 0; x < Width; x++)
                Assert.True(
                    image[x, y].Equals(expected(x, y)) || Math.Abs(image[x, y] - expected(x, y)) <= tolerance,
                    $"({x}, {y}): {image[x, y]} instead of {expected(x, y)}");
    }
}
