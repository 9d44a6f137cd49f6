using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Tiles as a frame shows them that is turned against the reference: a tile of 256 px turned by 2 degrees misses its own dots by more than their width at its rim.</summary>
internal static class TurnedTiles
{
    /// <summary>Turns tiles about their own middles.</summary>
    /// <param name="reference">Reference picture.</param>
    /// <param name="undisturbed">Pixels without flow.</param>
    /// <param name="tiles">The tiles, for their places.</param>
    /// <param name="size">Side of a tile, px.</param>
    /// <param name="degrees">Turn of the frame, degrees counter-clockwise as seen.</param>
    /// <returns>Tiles at the same places; bilinear, which is good enough to find a tile by.</returns>
    public static IReadOnlyList<ReferenceTile> Of(GrayImage reference, PixelMask undisturbed, IReadOnlyList<ReferenceTile> tiles, int size, double degrees)
    {
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(degrees));
        var reader = new TileReader(size);
        double middle = (size - 1) / 2.0;
        var turned = new List<ReferenceTile>(tiles.Count);
        foreach (ReferenceTile tile in tiles)
        {
            float[] levels = new float[size * size];
            for (int i = 0; i < levels.Length; i++)
            {
                double x = (i % size) - middle;
                double y = (i / size) - middle;
                levels[i] = Level(reference, undisturbed, tile.Left + middle + (cosine * x) - (sine * y), tile.Top + middle + (sine * x) + (cosine * y));
            }

            float[] pixels = new float[levels.Length];
            reader.Read(new GrayImage(size, size, levels, reference.WhiteLevel), null, 0, 0, pixels);
            turned.Add(tile with { Pixels = pixels });
        }

        return turned;
    }

    private static float Level(GrayImage picture, PixelMask mask, double x, double y)
    {
        int left = (int)Math.Floor(x);
        int top = (int)Math.Floor(y);
        if (left < 0 || top < 0 || left + 1 >= picture.Width || top + 1 >= picture.Height || !mask[(int)Math.Round(x), (int)Math.Round(y)])
            return float.NaN;
        float across = (float)(x - left);
        float above = picture[left, top] + (across * (picture[left + 1, top] - picture[left, top]));
        float below = picture[left, top + 1] + (across * (picture[left + 1, top + 1] - picture[left, top + 1]));
        return above + ((float)(y - top) * (below - above));
    }
}
