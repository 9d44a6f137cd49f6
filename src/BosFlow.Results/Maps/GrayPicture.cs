using BosFlow.Footage;
using BosFlow.Results.Files;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.PixelFormats;

namespace BosFlow.Results.Maps;

/// <summary>Writes grey pictures as files.</summary>
public static class GrayPicture
{
    /// <summary>Writes a PNG, whole or not at all; the same picture gives the same bytes.</summary>
    /// <param name="path">Where; the folder must exist.</param>
    /// <param name="image">Grey levels in digital numbers, 0 to 2^bits - 1; rounded to the nearest, half to even.</param>
    /// <param name="bits">8 or 16.</param>
    /// <exception cref="ArgumentException">A level is NaN or outside the range: a picture is never clipped silently.</exception>
    public static void WritePng(string path, GrayImage image, int bits)
    {
        ArgumentNullException.ThrowIfNull(image);
        if (bits is not (8 or 16))
            throw new ArgumentOutOfRangeException(nameof(bits), bits, "8 or 16 bits a pixel.");
        Check(image, bits);
        var encoder = new PngEncoder { ColorType = PngColorType.Grayscale, BitDepth = bits == 8 ? PngBitDepth.Bit8 : PngBitDepth.Bit16 };
        using Image picture = bits == 8 ? Convert(image, level => new L8((byte)level)) : Convert(image, level => new L16((ushort)level));
        AtomicFile.Write(path, stream => picture.Save(stream, encoder));
    }

    /// <summary>Writes an uncompressed 32-bit float TIFF, whole or not at all; every level as it is, NaN included.</summary>
    /// <param name="path">Where; the folder must exist.</param>
    /// <param name="image">Grey levels; at most 2 GB.</param>
    public static void WriteFloatTiff(string path, GrayImage image)
    {
        ArgumentNullException.ThrowIfNull(image);
        AtomicFile.Write(path, stream => FloatTiff.Write(stream, image));
    }

    private static void Check(GrayImage image, int bits)
    {
        int largest = (1 << bits) - 1;
        for (int i = 0; i < image.Pixels.Length; i++)
        {
            double level = Math.Round((double)image.Pixels[i]);
            if (!(level >= 0 && level <= largest))
                throw new ArgumentException($"The level {image.Pixels[i]} at ({i % image.Width}, {i / image.Width}) does not fit {bits} bits.", nameof(image));
        }
    }

    private static Image<TPixel> Convert<TPixel>(GrayImage image, Func<double, TPixel> convert)
        where TPixel : unmanaged, IPixel<TPixel>
    {
        var picture = new Image<TPixel>(image.Width, image.Height);
        for (int y = 0; y < image.Height; y++)
        {
            ReadOnlySpan<float> row = image.Row(y);
            for (int x = 0; x < row.Length; x++)
                picture[x, y] = convert(Math.Round((double)row[x]));
        }

        return picture;
    }
}
