using BosFlow.ForeignBytes.Mutation;
using BosFlow.Media;
using BosFlow.Media.Fiducials;
using OpenCvSharp;

namespace BosFlow.ForeignBytes.Readers;

/// <summary>Small pictures of every format.</summary>
internal static class PictureInputs
{
    private const int Width = 64;
    private const int Height = 48;

    public static IReadOnlyList<Sample> Png(string folder) =>
        [Write(folder, "grey8.png", Grey(MatType.CV_8UC1)), Write(folder, "grey16.png", Grey(MatType.CV_16UC1)), Write(folder, "colour.png", Grey(MatType.CV_8UC3))];

    public static IReadOnlyList<Sample> Jpeg(string folder) => [Write(folder, "grey.jpg", Grey(MatType.CV_8UC1)), Write(folder, "colour.jpg", Grey(MatType.CV_8UC3))];

    public static IReadOnlyList<Sample> Tiff(string folder) =>
    [
        Write(folder, "packed.tif", Grey(MatType.CV_8UC1), (int)ImwriteFlags.TiffCompression, 5),
        Write(folder, "deflated.tif", Grey(MatType.CV_16UC1), (int)ImwriteFlags.TiffCompression, 8),
        Write(folder, "plain.tif", Grey(MatType.CV_16UC1), (int)ImwriteFlags.TiffCompression, 1),
        Write(folder, "float.tif", Grey(MatType.CV_32FC1), (int)ImwriteFlags.TiffCompression, 1),
    ];

    public static IReadOnlyList<Sample> Bmp(string folder) => [Write(folder, "grey.bmp", Grey(MatType.CV_8UC1)), Write(folder, "colour.bmp", Grey(MatType.CV_8UC3))];

    public static IReadOnlyList<Sample> Photos(string folder)
    {
        string file = Path.Combine(folder, "photo.jpg");
        File.Copy(Write(folder, "source.jpg", Grey(MatType.CV_8UC1)).Path, file);
        return [new Sample(file, () => FiducialFinder.Find(PictureReader.Read(file)))];
    }

    private static Sample Write(string folder, string name, Mat picture, params int[] settings)
    {
        string file = Path.Combine(folder, name);
        using (picture)
        {
            Cv2.ImEncode(Path.GetExtension(name), picture, out byte[] bytes, settings);
            File.WriteAllBytes(file, bytes);
        }

        return new Sample(file, () => PictureReader.Read(file), name.EndsWith(".png", StringComparison.Ordinal) ? Signing.Png : null);
    }

    private static Mat Grey(MatType type)
    {
        using var levels = new Mat(Height, Width, MatType.CV_8UC1);
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
                levels.Set(y, x, (byte)(((x * 7) + (y * 31) + (x * y)) % 256));
        }

        var picture = new Mat();
        if (type == MatType.CV_8UC3)
            Cv2.CvtColor(levels, picture, ColorConversionCodes.GRAY2BGR);
        else
            levels.ConvertTo(picture, type, type == MatType.CV_16UC1 ? 257 : 1);
        return picture;
    }
}
