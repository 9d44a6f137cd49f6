using BosFlow.Footage;

namespace BosFlow.Triage;

/// <summary>Reads one frame: grey levels over all of it, dots in tiles.</summary>
internal static class FrameAnalysis
{
    private const int MostColumns = 8;
    private const int MostRows = 6;
    private const int Block = 8;

    // Compression scatters clipped levels by a few numbers: two per cent of the range below white count as white, one above black as black; judgement.
    private const double NearWhite = 0.02;
    private const double NearBlack = 0.01;

    // A tile counts where nearly all of it shows the board.
    private const double LeastMeasurable = 0.9;

    public static FrameReading Read(Frame frame, int burst, PixelMask? measurable, CancellationToken cancellationToken)
    {
        if (frame.Image is not { } image)
            return new FrameReading { Index = frame.Index, TimeSeconds = frame.TimeSeconds, Burst = burst, Failure = frame.Failure };
        (double black, double white) = Range(image);
        (double level, double high, double low) = Levels(image, measurable, black, white);
        (int Left, int Top)[] places = Places(image.Width, image.Height, measurable);
        var tiles = new TileReading[places.Length];
        Parallel.For(0, places.Length, new ParallelOptions { CancellationToken = cancellationToken }, i =>
            tiles[i] = new TileAnalysis(image, places[i].Left, places[i].Top).Read(black, white));
        return new FrameReading
        {
            Index = frame.Index,
            TimeSeconds = frame.TimeSeconds,
            Burst = burst,
            Level = level,
            ClippedHigh = high,
            ClippedLow = low,
            Blockiness = Blockiness(image),
            Tiles = tiles,
        };
    }

    /// <summary>Grey levels of black and white: video of limited range has black at 16 of 235 (64 of 940), ITU-R BT.601; a float picture is measured by its largest level.</summary>
    public static (double Black, double White) Range(GrayImage image)
    {
        if (float.IsNaN(image.WhiteLevel))
        {
            double largest = 0;
            foreach (float level in image.Pixels)
                largest = level > largest ? level : largest;
            return (0, Math.Max(largest, 1e-30));
        }

        double black = image.WhiteLevel is 235 or 470 or 940 or 3760 ? image.WhiteLevel * 16 / 235 : 0;
        return (black, image.WhiteLevel);
    }

    private static (double Level, double High, double Low) Levels(GrayImage image, PixelMask? mask, double black, double white)
    {
        double range = white - black;
        float nearWhite = float.IsNaN(image.WhiteLevel) ? float.PositiveInfinity : (float)(white - (NearWhite * range));
        float nearBlack = (float)(black + (NearBlack * range));
        double sum = 0;
        long count = 0, high = 0, low = 0;
        for (int y = 0; y < image.Height; y++)
        {
            ReadOnlySpan<float> row = image.Row(y);
            ReadOnlySpan<byte> shown = mask is null ? default : mask.Values.Slice(y * image.Width, image.Width);
            for (int x = 0; x < row.Length; x++)
            {
                float level = row[x];
                if (float.IsNaN(level) || (mask is not null && shown[x] == 0))
                    continue;
                sum += level;
                count++;
                high += level >= nearWhite ? 1 : 0;
                low += level <= nearBlack ? 1 : 0;
            }
        }

        return count == 0 ? (double.NaN, double.NaN, double.NaN) : (((sum / count) - black) / range, (double)high / count, (double)low / count);
    }

    /// <summary>Upper left corners of the tiles, row after row: evenly over the picture, where the mask shows nearly all of them.</summary>
    public static (int Left, int Top)[] Places(int width, int height, PixelMask? mask)
    {
        int columns = Math.Min(MostColumns, width / TileAnalysis.Size), rows = Math.Min(MostRows, height / TileAnalysis.Size);
        var places = new List<(int Left, int Top)>();
        for (int row = 0; row < rows; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                int left = ((2 * column) + 1) * width / (2 * columns) - (TileAnalysis.Size / 2);
                int top = ((2 * row) + 1) * height / (2 * rows) - (TileAnalysis.Size / 2);
                if (mask is null || Share(mask, left, top) >= LeastMeasurable)
                    places.Add((left, top));
            }
        }

        return [.. places];
    }

    private static double Share(PixelMask mask, int left, int top)
    {
        int shown = 0;
        for (int y = top; y < top + TileAnalysis.Size; y++)
        {
            foreach (byte value in mask.Values.Slice((y * mask.Width) + left, TileAnalysis.Size))
                shown += value;
        }

        return (double)shown / (TileAnalysis.Size * TileAnalysis.Size);
    }

    // Every eighth row is enough: half a million differences of a large picture.
    private static double Blockiness(GrayImage image)
    {
        double across = 0, inside = 0;
        long borders = 0, inner = 0;
        for (int y = 4; y < image.Height; y += Block)
        {
            ReadOnlySpan<float> row = image.Row(y);
            for (int x = 1; x < row.Length; x++)
            {
                float step = Math.Abs(row[x] - row[x - 1]);
                if (float.IsNaN(step))
                    continue;
                if (x % Block == 0)
                    (across, borders) = (across + step, borders + 1);
                else
                    (inside, inner) = (inside + step, inner + 1);
            }
        }

        return inside > 0 && borders > 0 ? across / borders / (inside / inner) : double.NaN;
    }
}
