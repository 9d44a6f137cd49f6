using SkiaSharp;

namespace BosFlow.Results.Maps;

/// <summary>A drawing on white as the bytes of a PNG.</summary>
internal static class Png
{
    public static byte[] Draw(int width, int height, Action<Ink> draw)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.White);
            draw(new Ink(canvas));
        }

        using SKPixmap pixels = bitmap.PeekPixels();
        using SKData data = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Sub, 6))
            ?? throw new InvalidOperationException("The picture could not be packed as PNG.");
        return data.ToArray();
    }
}
