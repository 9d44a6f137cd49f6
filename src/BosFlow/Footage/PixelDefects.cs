namespace BosFlow.Footage;

/// <summary>Which pixels of a picture cannot be used, and why: 0 usable, else <see cref="NotRecorded"/> or <see cref="Glare"/>.</summary>
public static class PixelDefects
{
    /// <summary>The pixel was not recorded.</summary>
    public const byte NotRecorded = 1;

    /// <summary>The pixel lies in a saturated area larger than any dot, or beside one.</summary>
    public const byte Glare = 2;

    // Single saturated pixels are the tops of bright dots or the paper between dark ones and stay in use: the window's
    // texture is intact. Glare is a saturated area larger than any dot: 80 % of the 9 x 9 pixels around.
    private const int GlareRadius = 4;
    private const double GlareShare = 0.8;

    // A defect reaches as far as the interpolation kernel that would mix it into its neighbours.
    private const int Reach = 4;

    /// <summary>Finds the defects of a picture.</summary>
    /// <param name="image">The picture.</param>
    /// <returns>One code a pixel, row-major; null where every pixel is usable.</returns>
    public static byte[]? Find(GrayImage image)
    {
        ArgumentNullException.ThrowIfNull(image);
        int width = image.Width, height = image.Height;
        byte[]? codes = null;
        ReadOnlySpan<float> pixels = image.Pixels;
        float white = float.IsNaN(image.WhiteLevel) ? float.PositiveInfinity : image.WhiteLevel;
        int saturated = 0;
        for (int i = 0; i < pixels.Length; i++)
        {
            if (float.IsNaN(pixels[i]))
                (codes ??= new byte[pixels.Length])[i] = NotRecorded;
            else if (pixels[i] >= white)
                saturated++;
        }

        if (saturated > 0.5 * (2 * GlareRadius + 1) * (2 * GlareRadius + 1))
            codes = MarkGlare(pixels, white, width, height, codes);
        return codes is null ? null : Dilate(codes, width, height);
    }

    private static byte[]? MarkGlare(ReadOnlySpan<float> pixels, float white, int width, int height, byte[]? codes)
    {
        // Sums over columns of 9 rows, slid down; then a running sum along the row.
        int[] columnSums = new int[width];
        for (int y = 0; y < Math.Min(GlareRadius, height); y++)
            Add(pixels.Slice(y * width, width), white, columnSums, 1);
        for (int y = 0; y < height; y++)
        {
            if (y + GlareRadius < height)
                Add(pixels.Slice((y + GlareRadius) * width, width), white, columnSums, 1);
            if (y - GlareRadius - 1 >= 0)
                Add(pixels.Slice((y - GlareRadius - 1) * width, width), white, columnSums, -1);
            int rowsInside = Math.Min(y + GlareRadius, height - 1) - Math.Max(y - GlareRadius, 0) + 1;
            int sum = 0;
            for (int x = 0; x < Math.Min(GlareRadius, width); x++)
                sum += columnSums[x];
            for (int x = 0; x < width; x++)
            {
                if (x + GlareRadius < width)
                    sum += columnSums[x + GlareRadius];
                if (x - GlareRadius - 1 >= 0)
                    sum -= columnSums[x - GlareRadius - 1];
                int columnsInside = Math.Min(x + GlareRadius, width - 1) - Math.Max(x - GlareRadius, 0) + 1;
                if (sum >= GlareShare * rowsInside * columnsInside && pixels[(y * width) + x] >= white)
                    (codes ??= new byte[pixels.Length])[(y * width) + x] = Glare;
            }
        }

        return codes;
    }

    private static void Add(ReadOnlySpan<float> row, float white, int[] columnSums, int sign)
    {
        for (int x = 0; x < row.Length; x++)
        {
            if (row[x] >= white)
                columnSums[x] += sign;
        }
    }

    private static byte[] Dilate(byte[] codes, int width, int height)
    {
        byte[] wide = new byte[codes.Length];
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                byte code = codes[(y * width) + x];
                if (code == 0)
                    continue;
                for (int k = Math.Max(0, x - Reach); k <= Math.Min(width - 1, x + Reach); k++)
                    wide[(y * width) + k] = Math.Max(wide[(y * width) + k], code);
            }
        }

        byte[] result = new byte[codes.Length];
        for (int y = 0; y < height; y++)
        {
            for (int k = Math.Max(0, y - Reach); k <= Math.Min(height - 1, y + Reach); k++)
            {
                ReadOnlySpan<byte> source = wide.AsSpan(k * width, width);
                Span<byte> target = result.AsSpan(y * width, width);
                for (int x = 0; x < width; x++)
                    target[x] = Math.Max(target[x], source[x]);
            }
        }

        return result;
    }
}
