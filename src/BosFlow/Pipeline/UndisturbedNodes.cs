using BosFlow.Displacement;
using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>Which vectors may serve for registration: those whose whole window lies in the undisturbed region.</summary>
internal static class UndisturbedNodes
{
    /// <summary>Numbers of the nodes, ascending.</summary>
    /// <param name="grid">Window centres.</param>
    /// <param name="windowPixels">Side of the final window, px.</param>
    /// <param name="undisturbed">Pixels without flow.</param>
    public static int[] Find(NodeGrid grid, int windowPixels, PixelMask undisturbed)
    {
        int[] sums = SummedArea(undisturbed);
        int stride = undisturbed.Width + 1;
        var nodes = new List<int>();
        for (int row = 0; row < grid.Rows; row++)
        {
            (int top, int bottom) = Window(grid.Y(row), windowPixels);
            for (int column = 0; column < grid.Columns; column++)
            {
                (int left, int right) = Window(grid.X(column), windowPixels);
                if (left < 0 || top < 0 || right > undisturbed.Width || bottom > undisturbed.Height)
                    continue;
                int inside = sums[(bottom * stride) + right] - sums[(top * stride) + right] - sums[(bottom * stride) + left] + sums[(top * stride) + left];
                if (inside == (right - left) * (bottom - top))
                    nodes.Add((row * grid.Columns) + column);
            }
        }

        return [.. nodes];
    }

    // Pixels first .. last - 1 of an even window about a centre that is half-integer, or of one rounded outward about any other.
    private static (int First, int Last) Window(double centre, int size)
    {
        double first = centre - ((size - 1) / 2.0);
        return ((int)Math.Floor(first + 1e-9), (int)Math.Ceiling(first + size - 1e-9));
    }

    private static int[] SummedArea(PixelMask mask)
    {
        int stride = mask.Width + 1;
        int[] sums = new int[stride * (mask.Height + 1)];
        for (int y = 0; y < mask.Height; y++)
        {
            int row = 0;
            ReadOnlySpan<byte> values = mask.Values.Slice(y * mask.Width, mask.Width);
            for (int x = 0; x < values.Length; x++)
            {
                row += values[x];
                sums[((y + 1) * stride) + x + 1] = sums[(y * stride) + x + 1] + row;
            }
        }

        return sums;
    }
}
