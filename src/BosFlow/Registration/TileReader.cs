using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Cuts square tiles out of pictures for correlation. Holds scratch memory: one object a thread.</summary>
/// <remarks>
/// The mean over a box of a quarter of the tile is taken off each pixel: light that falls off over the picture stays put while the
/// board moves, and would otherwise pull the peak to zero shift. Pixels that are missing count as the mean of the others.
/// </remarks>
internal sealed class TileReader
{
    private readonly double[] sums;
    private readonly float[] levels;

    public TileReader(int size)
    {
        Size = size;
        sums = new double[(size + 1) * (size + 1)];
        levels = new float[size * size];
    }

    /// <summary>Side of a tile, px.</summary>
    public int Size { get; }

    /// <summary>Reads one tile.</summary>
    /// <param name="image">The picture.</param>
    /// <param name="mask">Pixels that may be used; null = all.</param>
    /// <param name="left">First column; the tile may reach outside the picture.</param>
    /// <param name="top">First row.</param>
    /// <param name="tile">Size * Size values about zero.</param>
    /// <returns>Share of the tile's pixels that the picture has, 0 to 1.</returns>
    public double Read(GrayImage image, PixelMask? mask, int left, int top, Span<float> tile)
    {
        int valid = Copy(image, mask, left, top, out double mean);
        if (valid == 0)
        {
            tile.Clear();
            return 0;
        }

        for (int i = 0; i < levels.Length; i++)
        {
            if (float.IsNaN(levels[i]))
                levels[i] = (float)mean;
        }

        RemoveLocalMean(tile);
        return (double)valid / levels.Length;
    }

    private int Copy(GrayImage image, PixelMask? mask, int left, int top, out double mean)
    {
        double sum = 0;
        int valid = 0;
        Array.Fill(levels, float.NaN);
        int firstX = Math.Max(left, 0);
        int lastX = Math.Min(left + Size, image.Width);
        for (int y = Math.Max(top, 0); y < Math.Min(top + Size, image.Height); y++)
        {
            ReadOnlySpan<float> row = image.Row(y);
            int target = ((y - top) * Size) - left;
            for (int x = firstX; x < lastX; x++)
            {
                if (!float.IsFinite(row[x]) || (mask is not null && !mask[x, y]))
                    continue;
                levels[target + x] = row[x];
                sum += row[x];
                valid++;
            }
        }

        mean = sum / valid;
        return valid;
    }

    private void RemoveLocalMean(Span<float> tile)
    {
        int stride = Size + 1;
        for (int y = 0; y < Size; y++)
        {
            double row = 0;
            for (int x = 0; x < Size; x++)
            {
                row += levels[(y * Size) + x];
                sums[((y + 1) * stride) + x + 1] = sums[(y * stride) + x + 1] + row;
            }
        }

        int radius = Size / 8;
        for (int y = 0; y < Size; y++)
        {
            int above = Math.Max(0, y - radius) * stride;
            int below = Math.Min(Size, y + radius + 1) * stride;
            for (int x = 0; x < Size; x++)
            {
                int before = Math.Max(0, x - radius);
                int after = Math.Min(Size, x + radius + 1);
                double box = sums[below + after] - sums[above + after] - sums[below + before] + sums[above + before];
                tile[(y * Size) + x] = (float)(levels[(y * Size) + x] - (box / ((below - above) / stride * (after - before))));
            }
        }
    }
}
