using System.Numerics;
using BosFlow.Footage;

namespace BosFlow.Registration;

/// <summary>Cuts square tiles out of pictures for correlation. Holds scratch memory: one object a thread.</summary>
/// <remarks>
/// The mean over a box of a quarter of the tile is taken off each pixel: light that falls off over the picture stays put while the
/// board moves, and would otherwise pull the peak to zero shift. Pixels that are missing count as the mean of the others.
/// </remarks>
internal sealed class TileReader
{
    private readonly float[] levels;
    private readonly double[] columns;
    private readonly double[] sums;

    public TileReader(int size)
    {
        Size = size;
        levels = new float[size * size];
        columns = new double[size];
        sums = new double[size + 1];
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
        Copy(image, mask, left, top);
        int valid = Finite(levels);
        if (valid == 0)
        {
            tile.Clear();
            return 0;
        }

        if (valid < levels.Length)
            FillWithMean(valid);
        RemoveLocalMean(tile);
        return (double)valid / levels.Length;
    }

    private void Copy(GrayImage image, PixelMask? mask, int left, int top)
    {
        int firstX = Math.Max(left, 0), lastX = Math.Min(left + Size, image.Width);
        int firstY = Math.Max(top, 0), lastY = Math.Min(top + Size, image.Height);
        if (lastX - firstX < Size || lastY - firstY < Size)
            Array.Fill(levels, float.NaN);
        for (int y = firstY; y < lastY && firstX < lastX; y++)
        {
            Span<float> target = levels.AsSpan(((y - top) * Size) + firstX - left, lastX - firstX);
            ReadOnlySpan<float> row = image.Levels((y * image.Width) + firstX, lastX - firstX, target);
            if (!image.HasCodes)
                row.CopyTo(target);
            for (int x = firstX; mask is not null && x < lastX; x++)
            {
                if (!mask[x, y])
                    target[x - firstX] = float.NaN;
            }
        }
    }

    private static int Finite(ReadOnlySpan<float> values)
    {
        // A value that is not finite is no number once it is taken off itself.
        Vector<int> counts = Vector<int>.Zero;
        int i = 0;
        for (; i <= values.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            Vector<float> levels = new(values[i..]);
            counts -= Vector.Equals(levels - levels, Vector<float>.Zero);
        }

        int finite = Vector.Sum(counts);
        for (; i < values.Length; i++)
            finite += float.IsFinite(values[i]) ? 1 : 0;
        return finite;
    }

    private void FillWithMean(int valid)
    {
        double sum = 0;
        foreach (float level in levels)
            sum += float.IsFinite(level) ? level : 0;
        for (int i = 0; i < levels.Length; i++)
        {
            if (!float.IsFinite(levels[i]))
                levels[i] = (float)(sum / valid);
        }
    }

    // Sums over the rows of the box, slid down; then differences of their running sums along the row.
    private void RemoveLocalMean(Span<float> tile)
    {
        int radius = Size / 8;
        Array.Clear(columns);
        for (int y = 0; y < radius; y++)
            AddRow(y, 1);
        for (int y = 0; y < Size; y++)
        {
            if (y + radius < Size)
                AddRow(y + radius, 1);
            if (y - radius - 1 >= 0)
                AddRow(y - radius - 1, -1);
            double sum = 0;
            for (int x = 0; x < Size; x++)
            {
                sum += columns[x];
                sums[x + 1] = sum;
            }

            int rows = Math.Min(Size, y + radius + 1) - Math.Max(0, y - radius);
            RemoveAlongRow(levels.AsSpan(y * Size, Size), tile.Slice(y * Size, Size), rows, radius);
        }
    }

    private void AddRow(int y, float sign)
    {
        ReadOnlySpan<float> row = levels.AsSpan(y * Size, Size);
        int x = 0;
        for (; x <= Size - Vector<float>.Count; x += Vector<float>.Count)
        {
            Vector.Widen(new Vector<float>(row[x..]) * sign, out Vector<double> low, out Vector<double> high);
            (new Vector<double>(columns, x) + low).CopyTo(columns, x);
            (new Vector<double>(columns, x + Vector<double>.Count) + high).CopyTo(columns, x + Vector<double>.Count);
        }

        for (; x < Size; x++)
            columns[x] += sign * row[x];
    }

    private void RemoveAlongRow(ReadOnlySpan<float> row, Span<float> target, int rows, int radius)
    {
        int width = (2 * radius) + 1;
        int x = 0;
        while (x < Size)
        {
            if (x >= radius && x + radius + Vector<float>.Count <= Size)
            {
                Vector<double> low = new Vector<double>(sums, x + radius + 1) - new Vector<double>(sums, x - radius);
                Vector<double> high = new Vector<double>(sums, x + radius + 1 + Vector<double>.Count) - new Vector<double>(sums, x - radius + Vector<double>.Count);
                double share = 1.0 / (rows * width);
                (new Vector<float>(row[x..]) - Vector.Narrow(low * share, high * share)).CopyTo(target[x..]);
                x += Vector<float>.Count;
                continue;
            }

            int before = Math.Max(0, x - radius), after = Math.Min(Size, x + radius + 1);
            target[x] = (float)(row[x] - ((sums[after] - sums[before]) / (rows * (after - before))));
            x++;
        }
    }
}
