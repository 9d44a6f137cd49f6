using BosFlow.Footage;

namespace BosFlow.Triage;

/// <summary>How wide the dots of a picture are along the longest axis of their images, at a few places: the sign of blur and smear.</summary>
public sealed class DotWidth
{
    // Sixteen tiles of 64 px hold some thousand dots, and cost a thousandth of the measurement of a frame.
    private const int MostTiles = 16;
    private readonly (int Left, int Top)[] places;

    /// <summary>Chooses the places.</summary>
    /// <param name="width">Width of the pictures, px.</param>
    /// <param name="height">Height of the pictures, px.</param>
    /// <param name="shown">Pixels to look at.</param>
    public DotWidth(int width, int height, PixelMask shown)
    {
        ArgumentNullException.ThrowIfNull(shown);
        (int Left, int Top)[] all = FrameAnalysis.Places(width, height, shown);
        int step = Math.Max(1, (all.Length + MostTiles - 1) / MostTiles);
        places = [.. all.Where((_, i) => i % step == 0)];
    }

    /// <summary>e^-2 diameter, px, median over the places that show a pattern; NaN where fewer than half of them do.</summary>
    /// <param name="image">The picture.</param>
    public double Of(GrayImage image)
    {
        ArgumentNullException.ThrowIfNull(image);
        (double black, double white) = FrameAnalysis.Range(image);
        double[] widths = [.. places.Select(place => new TileAnalysis(image, place.Left, place.Top).LongestDiameter(white - black)).Where(double.IsFinite)];
        return 2 * widths.Length < places.Length ? double.NaN : Spread.Median(widths);
    }
}
