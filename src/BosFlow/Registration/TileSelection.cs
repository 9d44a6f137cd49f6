using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Chooses tiles of the undisturbed region that have texture and lie far from each other.</summary>
internal static class TileSelection
{
    private const double LowestValidShare = 0.6;
    private const double LowestTextureShare = 0.25;

    /// <summary>Chooses tiles.</summary>
    /// <param name="reference">The reference picture.</param>
    /// <param name="undisturbed">Pixels without flow.</param>
    /// <param name="size">Side of a tile, px; not larger than the picture.</param>
    /// <param name="most">Most tiles wanted.</param>
    /// <returns>The tiles, in the order of their choice; empty where no place has texture.</returns>
    public static IReadOnlyList<ReferenceTile> Choose(GrayImage reference, PixelMask undisturbed, int size, int most)
    {
        var places = new List<(int Left, int Top, double Texture)>();
        foreach (int top in Starts(reference.Height, size))
        {
            foreach (int left in Starts(reference.Width, size))
            {
                double texture = Texture(reference, undisturbed, left, top, size);
                if (texture > 0)
                    places.Add((left, top, texture));
            }
        }

        return Cut(reference, undisturbed, size, most, places);
    }

    /// <summary>First rows of the bands that cover a picture, the last one flush with its lower edge.</summary>
    /// <param name="height">Height of the picture, px.</param>
    /// <param name="size">Height of a band, px; not larger than the picture.</param>
    /// <param name="step">Distance between neighbouring bands, px.</param>
    public static IEnumerable<int> BandTops(int height, int size, int step)
    {
        for (int top = 0; top + size < height; top += step)
            yield return top;
        yield return height - size;
    }

    /// <summary>Chooses tiles of one band of rows.</summary>
    /// <param name="reference">The reference picture.</param>
    /// <param name="undisturbed">Pixels without flow.</param>
    /// <param name="size">Side of a tile, px; not larger than the picture.</param>
    /// <param name="top">First row of the band.</param>
    /// <param name="most">Most tiles wanted.</param>
    /// <returns>The tiles, in the order of their choice; empty where no place has texture.</returns>
    public static IReadOnlyList<ReferenceTile> Band(GrayImage reference, PixelMask undisturbed, int size, int top, int most)
    {
        var places = new List<(int Left, int Top, double Texture)>();
        foreach (int left in Starts(reference.Width, size))
        {
            double texture = Texture(reference, undisturbed, left, top, size);
            if (texture > 0)
                places.Add((left, top, texture));
        }

        return Cut(reference, undisturbed, size, most, places);
    }

    private static IReadOnlyList<ReferenceTile> Cut(GrayImage reference, PixelMask undisturbed, int size, int most, List<(int Left, int Top, double Texture)> places)
    {
        if (places.Count == 0)
            return [];
        double limit = LowestTextureShare * places.Max(place => place.Texture);
        places.RemoveAll(place => place.Texture < limit);
        var reader = new TileReader(size);
        return [.. Spread(places, most).Select(place => Cut(reader, reference, undisturbed, place.Left, place.Top))];
    }

    private static ReferenceTile Cut(TileReader reader, GrayImage reference, PixelMask undisturbed, int left, int top)
    {
        float[] pixels = new float[reader.Size * reader.Size];
        reader.Read(reference, undisturbed, left, top, pixels);
        return new ReferenceTile(left, top, pixels);
    }

    private static IEnumerable<int> Starts(int length, int size)
    {
        int step = Math.Max(1, size / 2);
        int last = length - size;
        for (int start = 0; start < last; start += step)
            yield return start;
        yield return last;
    }

    /// <summary>Mean squared difference of neighbouring pixels, which slow changes of light do not touch; 0 where too few pixels are usable.</summary>
    private static double Texture(GrayImage image, PixelMask mask, int left, int top, int size)
    {
        double sum = 0;
        int pairs = 0;
        for (int y = top; y < top + size; y++)
        {
            ReadOnlySpan<float> row = image.Row(y);
            for (int x = left + 1; x < left + size; x++)
            {
                float difference = row[x] - row[x - 1];
                if (!float.IsFinite(difference) || !mask[x, y] || !mask[x - 1, y])
                    continue;
                sum += difference * difference;
                pairs++;
            }
        }

        return pairs >= LowestValidShare * size * (size - 1) ? sum / pairs : 0;
    }

    // Starts at the place of most texture, then always takes the place farthest from those taken: ends and corners come early,
    // which is what a rotation and a scale are measured by.
    private static List<(int Left, int Top)> Spread(List<(int Left, int Top, double Texture)> places, int most)
    {
        double[] distance = new double[places.Count];
        Array.Fill(distance, double.PositiveInfinity);
        var taken = new List<(int Left, int Top)>();
        int next = places.IndexOf(places.MaxBy(place => place.Texture));
        while (taken.Count < Math.Min(most, places.Count))
        {
            (int left, int top, _) = places[next];
            taken.Add((left, top));
            for (int i = 0; i < places.Count; i++)
            {
                double dx = places[i].Left - left;
                double dy = places[i].Top - top;
                distance[i] = Math.Min(distance[i], (dx * dx) + (dy * dy));
            }

            next = Array.IndexOf(distance, distance.Max());
        }

        return taken;
    }
}
