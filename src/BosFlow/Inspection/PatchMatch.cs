using BosFlow.Footage;

namespace BosFlow.Inspection;

/// <summary>Looks for a drawing in a picture by normalised cross-correlation.</summary>
internal static class PatchMatch
{
    /// <summary>The shift of best agreement.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="drawing">side x side, row-major, at (left, top) of the picture.</param>
    /// <param name="left">Column of its first pixel.</param>
    /// <param name="top">Row of its first pixel.</param>
    /// <param name="side">Its pixels along a side.</param>
    /// <param name="reach">Largest shift looked at in either direction, px.</param>
    /// <returns>
    /// Shift, px, to a part of a pixel by a parabola through the neighbours of the best whole one, and the correlation there, -1 to 1; null where the
    /// search leaves the picture, meets NaN or evenness, or ends at its own limit.
    /// </returns>
    public static (double X, double Y, double Correlation)? Find(GrayImage picture, float[] drawing, int left, int top, int side, int reach)
    {
        if (left - reach < 0 || top - reach < 0 || left + side + reach > picture.Width || top + side + reach > picture.Height)
            return null;
        double mean = drawing.Average(level => (double)level);
        float[] centred = [.. drawing.Select(level => (float)(level - mean))];
        double square = centred.Sum(level => (double)level * level);
        int width = (2 * reach) + 1;
        double[] scores = new double[width * width];
        int best = 0;
        for (int i = 0; i < scores.Length; i++)
        {
            scores[i] = Score(picture, centred, square, left + (i % width) - reach, top + (i / width) - reach, side);
            if (!double.IsFinite(scores[i]))
                return null;
            if (scores[i] > scores[best])
                best = i;
        }

        (int x, int y) = (best % width, best / width);
        if (x == 0 || y == 0 || x == width - 1 || y == width - 1)
            return null;
        return (
            x - reach + Vertex(scores[best - 1], scores[best], scores[best + 1]),
            y - reach + Vertex(scores[best - width], scores[best], scores[best + width]),
            scores[best]);
    }

    private static double Score(GrayImage picture, float[] centred, double square, int left, int top, int side)
    {
        double sum = 0;
        double squares = 0;
        double product = 0;
        for (int row = 0; row < side; row++)
        {
            ReadOnlySpan<float> levels = picture.Row(top + row).Slice(left, side);
            ReadOnlySpan<float> drawn = centred.AsSpan(row * side, side);
            for (int i = 0; i < drawn.Length; i++)
            {
                double level = levels[i];
                sum += level;
                squares += level * level;
                product += level * drawn[i];
            }
        }

        double spread = squares - (sum * sum / (side * side));
        return product / Math.Sqrt(square * spread);
    }

    private static double Vertex(double before, double middle, double after) => (before - after) / (2 * (before - (2 * middle) + after));
}
