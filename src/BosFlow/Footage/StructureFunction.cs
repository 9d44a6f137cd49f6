namespace BosFlow.Footage;

/// <summary>Mean squared difference of grey levels a distance apart: how rough a picture is at that scale.</summary>
internal static class StructureFunction
{
    /// <summary>D(k) = mean of (I(x + k, y) - I(x, y))^2 and (I(x, y + k) - I(x, y))^2 over pairs of valid, measurable pixels.</summary>
    /// <param name="distance">k, px, at least 1.</param>
    /// <param name="image">The picture.</param>
    /// <param name="mask">Pixels that take part; same size.</param>
    /// <returns>Digital numbers squared; NaN where no pair is valid.</returns>
    internal static double At(int distance, GrayImage image, PixelMask mask)
    {
        double sum = 0;
        long pairs = 0;
        ReadOnlySpan<float> pixels = image.Pixels;
        ReadOnlySpan<byte> values = mask.Values;
        int down = distance * image.Width;
        for (int y = 0; y < image.Height; y++)
        {
            for (int x = 0; x < image.Width; x++)
            {
                int here = (y * image.Width) + x;
                if (values[here] == 0 || float.IsNaN(pixels[here]))
                    continue;
                if (x + distance < image.Width && values[here + distance] != 0)
                    Add(pixels[here + distance] - pixels[here], ref sum, ref pairs);
                if (y + distance < image.Height && values[here + down] != 0)
                    Add(pixels[here + down] - pixels[here], ref sum, ref pairs);
            }
        }

        return pairs > 0 ? sum / pairs : double.NaN;
    }

    private static void Add(float difference, ref double sum, ref long pairs)
    {
        if (float.IsNaN(difference))
            return;
        sum += (double)difference * difference;
        pairs++;
    }
}
