using BosFlow.Footage;
using BosFlow.Numerics.Robust;

namespace BosFlow.Displacement;

/// <summary>How large the dots of a picture appear, from the picture itself.</summary>
internal static class ApparentDot
{
    private const int MostTilesAlong = 6;

    // A pattern shares a tenth of its variance with the neighbouring pixel; noise alone and dots of less than a pixel do not. Judgement.
    private const double LeastShared = 0.1;

    // The pixel averages over itself: 1 / 12 px^2 of variance, 16 times that of squared diameter.
    private const double SquaredPixel = 16.0 / 12;

    /// <summary>Diameter of a dot without what the pixel adds to it, px.</summary>
    /// <param name="apparent">Diameter in the picture, px; NaN stays NaN.</param>
    public static double WithoutPixel(double apparent) => Math.Sqrt(Math.Max(0, (apparent * apparent) - SquaredPixel));

    /// <summary>e^-2 diameter in the picture, px: median over tiles of <see cref="TileCovariance"/>, exact for Gaussian dots thrown at random, up to a quarter low for dots that keep apart; NaN where fewer than half of the tiles show a pattern.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="measurable">Pixels to look at.</param>
    public static double Diameter(GrayImage image, PixelMask measurable)
    {
        const int Size = TileCovariance.Size;
        int columns = Math.Min(MostTilesAlong, image.Width / Size), rows = Math.Min(MostTilesAlong, image.Height / Size), tiles = 0;
        var diameters = new List<float>();
        for (int k = 0; k < columns * rows; k++)
        {
            int left = (((2 * (k % columns)) + 1) * image.Width / (2 * columns)) - (Size / 2), top = (((2 * (k / columns)) + 1) * image.Height / (2 * rows)) - (Size / 2);
            if (!IsWhole(measurable, left, top))
                continue;
            tiles++;
            double diameter = OfTile(new TileCovariance(image, left, top));
            if (double.IsFinite(diameter))
                diameters.Add((float)diameter);
        }

        return diameters.Count == 0 || 2 * diameters.Count < tiles ? double.NaN : Quantiles.Median([.. diameters]);
    }

    private static double OfTile(TileCovariance tile)
    {
        if (!tile.IsComplete || !(tile.Covariance(1, 0) + tile.Covariance(0, 1) > 2 * LeastShared * tile.Covariance(0, 0)))
            return double.NaN;
        return TileCovariance.DiameterOverHalf * (tile.HalfDistance(1, 0) + tile.HalfDistance(0, 1)) / 2;
    }

    private static bool IsWhole(PixelMask mask, int left, int top)
    {
        for (int y = top; y < top + TileCovariance.Size; y++)
        {
            if (mask.Values.Slice((y * mask.Width) + left, TileCovariance.Size).Contains((byte)0))
                return false;
        }

        return true;
    }
}
