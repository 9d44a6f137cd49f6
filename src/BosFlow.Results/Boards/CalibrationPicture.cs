using BosFlow.Camera;
using BosFlow.Footage;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>Where the points of a calibration were seen, over one of its pictures, each with a line a hundred times as long as it misses.</summary>
public static class CalibrationPicture
{
    private const float Enlargement = 100;
    private static readonly SKColor PointColour = new(0, 158, 115);
    private static readonly SKColor MissColour = new(213, 94, 0);

    /// <summary>Draws the picture.</summary>
    /// <param name="picture">One of the pictures; it is faded.</param>
    /// <param name="calibration">The calibration.</param>
    /// <returns>PNG of the pictures' size.</returns>
    public static ReadOnlyMemory<byte> Draw(GrayImage picture, LensCalibration calibration)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(calibration);
        using var bitmap = new SKBitmap(new SKImageInfo(picture.Width, picture.Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        Fade(bitmap, picture);
        using (var canvas = new SKCanvas(bitmap))
        {
            using var point = new SKPaint { Color = PointColour, IsAntialias = true };
            using var miss = new SKPaint { Color = MissColour, IsStroke = true, StrokeWidth = 1.5f, IsAntialias = true };
            foreach (CalibratedView view in calibration.Views)
            {
                for (int i = 0; i < view.Misses.Count; i++)
                {
                    (float x, float y) = ((float)view.View.Points[i].Column + 0.5f, (float)view.View.Points[i].Row + 0.5f);
                    (double missX, double missY) = view.Misses[i];
                    canvas.DrawLine(x, y, x + (Enlargement * (float)missX), y + (Enlargement * (float)missY), miss);
                    canvas.DrawCircle(x, y, 2, point);
                }
            }
        }

        using SKPixmap pixels = bitmap.PeekPixels();
        using SKData data = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Sub, 6))
            ?? throw new InvalidOperationException("The picture could not be packed as PNG.");
        return data.ToArray();
    }

    private static void Fade(SKBitmap bitmap, GrayImage picture)
    {
        float white = float.IsNaN(picture.WhiteLevel) ? 255 : picture.WhiteLevel;
        Span<byte> pixels = bitmap.GetPixelSpan();
        for (int row = 0; row < picture.Height; row++)
        {
            for (int column = 0; column < picture.Width; column++)
            {
                float level = picture[column, row];
                byte faded = (byte)(155 + (100 * (float.IsNaN(level) ? 0 : Math.Clamp(level / white, 0, 1))));
                Span<byte> pixel = pixels.Slice((row * bitmap.RowBytes) + (4 * column), 4);
                pixel[..3].Fill(faded);
                pixel[3] = 255;
            }
        }
    }
}
