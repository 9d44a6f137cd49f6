using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>Mean squared difference of grey levels a distance apart: how rough a picture is at that scale.</summary>
internal static class StructureFunction
{
    // Of a larger picture only every second, third ... row is looked at: a million pixels tell its roughness to a few thousandths.
    private const int EnoughPixels = 1 << 20;

    /// <summary>D(k) = mean of (I(x + k, y) - I(x, y))^2 and (I(x, y + k) - I(x, y))^2 over pairs of valid, measurable pixels; of pictures beyond two million pixels over evenly spaced rows.</summary>
    /// <param name="distance">k, px, at least 1.</param>
    /// <param name="image">The picture.</param>
    /// <param name="mask">Pixels that take part; same size.</param>
    /// <returns>Digital numbers squared; NaN where no pair is valid.</returns>
    internal static double At(int distance, GrayImage image, PixelMask mask)
    {
        double sum = 0;
        long pairs = 0;
        int step = Math.Max(1, image.Pixels.Length / EnoughPixels);
        for (int y = 0; y < image.Height; y += step)
        {
            ReadOnlySpan<float> row = image.Row(y);
            ReadOnlySpan<byte> taking = mask.Values.Slice(y * image.Width, image.Width);
            if (distance < image.Width)
                Add(row[..^distance], row[distance..], taking[..^distance], taking[distance..], ref sum, ref pairs);
            if (y + distance < image.Height)
                Add(row, image.Row(y + distance), taking, mask.Values.Slice((y + distance) * image.Width, image.Width), ref sum, ref pairs);
        }

        return pairs > 0 ? sum / pairs : double.NaN;
    }

    private static void Add(ReadOnlySpan<float> one, ReadOnlySpan<float> other, ReadOnlySpan<byte> oneTakes, ReadOnlySpan<byte> otherTakes, ref double sum, ref long pairs)
    {
        LaneSum squares = default;
        for (int x = 0; x < one.Length; x += PixelLanes.Count)
        {
            Vector256<float> difference = PixelLanes.Levels(other, x) - PixelLanes.Levels(one, x);
            byte counting = (byte)(PixelLanes.Counting(oneTakes, x) & PixelLanes.Counting(otherTakes, x) & PixelLanes.Numbers(difference));
            squares.AddSquares(PixelLanes.Kept(difference, counting), 0);
            pairs += PixelLanes.Number(counting);
        }

        sum += squares.Total;
    }
}
