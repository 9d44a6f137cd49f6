using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Speckle.Boards;
using SkiaSharp;

namespace BosFlow.Results.Boards;

/// <summary>The photo of a board with what was found drawn in: rings around dots that are there, crosses where one is missing, frames around fiducials.</summary>
public static class BoardCheckPicture
{
    private static readonly SKColor FoundColour = new(0, 158, 115);
    private static readonly SKColor MissingColour = new(213, 94, 0);
    private static readonly SKColor FiducialColour = new(0, 114, 178);

    /// <summary>Draws the picture.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="board">The board.</param>
    /// <param name="check">What was found.</param>
    /// <returns>PNG of the photo's size.</returns>
    public static ReadOnlyMemory<byte> Draw(GrayImage photo, Board board, BoardCheck check)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(board);
        ArgumentNullException.ThrowIfNull(check);
        using var bitmap = new SKBitmap(new SKImageInfo(photo.Width, photo.Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        Fill(bitmap, photo);
        using (var canvas = new SKCanvas(bitmap))
        {
            DrawDots(canvas, check);
            DrawFiducials(canvas, board, check);
        }

        using SKPixmap pixels = bitmap.PeekPixels();
        using SKData data = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Sub, 6))
            ?? throw new InvalidOperationException("The picture could not be packed as PNG.");
        return data.ToArray();
    }

    private static void Fill(SKBitmap bitmap, GrayImage photo)
    {
        float white = float.IsNaN(photo.WhiteLevel) ? 255 : photo.WhiteLevel;
        Span<byte> pixels = bitmap.GetPixelSpan();
        for (int row = 0; row < photo.Height; row++)
        {
            for (int column = 0; column < photo.Width; column++)
            {
                byte level = (byte)(Math.Clamp(photo[column, row] / white, 0, 1) * 255);
                Span<byte> pixel = pixels.Slice((row * bitmap.RowBytes) + (4 * column), 4);
                pixel[..3].Fill(level);
                pixel[3] = 255;
            }
        }
    }

    private static void DrawDots(SKCanvas canvas, BoardCheck check)
    {
        using var found = new SKPaint { Color = FoundColour, IsStroke = true, StrokeWidth = 1, IsAntialias = true };
        using var missing = new SKPaint { Color = MissingColour, IsStroke = true, StrokeWidth = 2, IsAntialias = true };
        foreach (CheckedDot dot in check.Dots)
        {
            if (dot.IsFound)
            {
                canvas.DrawCircle(dot.X + 0.5f, dot.Y + 0.5f, dot.Radius, found);
                continue;
            }

            float arm = dot.Radius + 2;
            canvas.DrawLine(dot.X - arm, dot.Y - arm, dot.X + arm, dot.Y + arm, missing);
            canvas.DrawLine(dot.X - arm, dot.Y + arm, dot.X + arm, dot.Y - arm, missing);
        }
    }

    private static void DrawFiducials(SKCanvas canvas, Board board, BoardCheck check)
    {
        using var paint = new SKPaint { Color = FiducialColour, IsStroke = true, StrokeWidth = 3, IsAntialias = true };
        foreach (Fiducial mark in board.Fiducials.Where(mark => check.FiducialsFound.Contains(mark.Id)))
        {
            SKPoint[] corners = [.. new[] { (-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1) }.Select(corner =>
            {
                (double x, double y) = check.Plane.Map.ToPicture(mark.X + (corner.Item1 * mark.Side / 2), mark.Y + (corner.Item2 * mark.Side / 2));
                return new SKPoint((float)x + 0.5f, (float)y + 0.5f);
            })];
            canvas.DrawPoints(SKPointMode.Polygon, corners, paint);
        }
    }
}
