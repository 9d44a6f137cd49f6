using BosFlow.Footage;

namespace BosFlow.Media;

/// <summary>Turns pictures as their orientation asks. Pixels move, none is interpolated.</summary>
internal static class OrientationTurn
{
    internal static bool SwapsSides(Orientation orientation) => orientation >= Orientation.Transposed;

    /// <summary>Size on display of a picture stored as width x height.</summary>
    internal static (int Width, int Height) Size(int width, int height, Orientation orientation) =>
        SwapsSides(orientation) ? (height, width) : (width, height);

    /// <summary>The picture as it is displayed; the picture itself where it is stored upright.</summary>
    internal static GrayImage Apply(GrayImage stored, Orientation orientation)
    {
        if (orientation == Orientation.Upright)
            return stored;
        (int width, int height) = Size(stored.Width, stored.Height, orientation);
        (int origin, int stepX, int stepY) = Walk(stored.Width, stored.Height, orientation);
        float[] turned = new float[stored.Pixels.Length];
        ReadOnlySpan<float> pixels = stored.Pixels;
        for (int y = 0; y < height; y++)
        {
            int source = origin + (y * stepY);
            int target = y * width;
            for (int x = 0; x < width; x++, source += stepX)
                turned[target + x] = pixels[source];
        }

        return new GrayImage(width, height, turned, stored.WhiteLevel);
    }

    // Where the first displayed pixel is stored, and how far storage moves for one pixel right and one row down.
    private static (int Origin, int StepX, int StepY) Walk(int width, int height, Orientation orientation)
    {
        int lastColumn = width - 1;
        int lastRow = (height - 1) * width;
        return orientation switch
        {
            Orientation.Mirrored => (lastColumn, -1, width),
            Orientation.HalfTurn => (lastRow + lastColumn, -1, -width),
            Orientation.Flipped => (lastRow, 1, -width),
            Orientation.Transposed => (0, width, 1),
            Orientation.QuarterTurnClockwise => (lastRow, -width, 1),
            Orientation.Transversed => (lastRow + lastColumn, -width, -1),
            Orientation.QuarterTurnCounterClockwise => (lastColumn, width, -1),
            _ => (0, 1, width),
        };
    }
}
