using System.Runtime.Intrinsics;

namespace BosFlow.Footage;

/// <summary>Mean squared difference of grey levels a distance apart: how rough a picture is at that scale.</summary>
internal static class StructureFunction
{
    // Of a larger picture only every second, third ... row is looked at: half a million pixels tell its roughness to a few thousandths.
    private const int EnoughPixels = 1 << 19;

    /// <summary>D(k) = mean of (I(x + k, y) - I(x, y))^2 and (I(x, y + k) - I(x, y))^2 over pairs of valid, measurable pixels; of pictures beyond a million pixels over evenly spaced rows.</summary>
    /// <param name="distance">k, px, at least 1.</param>
    /// <param name="image">The picture.</param>
    /// <param name="mask">Pixels that take part; same size.</param>
    /// <returns>Digital numbers squared; NaN where no pair is valid.</returns>
    internal static double At(int distance, GrayImage image, PixelMask mask)
    {
        double sum = 0;
        long pairs = 0;
        int step = Math.Max(1, image.Width * image.Height / EnoughPixels);
        float[] room = new float[2 * image.Width];
        for (int y = 0; y < image.Height; y += step)
        {
            ReadOnlySpan<float> row = image.Levels(y * image.Width, image.Width, room.AsSpan(0, image.Width));
            ReadOnlySpan<byte> taking = mask.Values.Slice(y * image.Width, image.Width);
            if (distance < image.Width)
                Add(row[..^distance], row[distance..], taking[..^distance], taking[distance..], ref sum, ref pairs);
            if (y + distance < image.Height)
                Add(row, image.Levels((y + distance) * image.Width, image.Width, room.AsSpan(image.Width)), taking, mask.Values.Slice((y + distance) * image.Width, image.Width), ref sum, ref pairs);
        }

        return pairs > 0 ? sum / pairs : double.NaN;
    }

    private static void Add(ReadOnlySpan<float> one, ReadOnlySpan<float> other, ReadOnlySpan<byte> oneTakes, ReadOnlySpan<byte> otherTakes, ref double sum, ref long pairs)
    {
        Vector512<double> squares = default;
        Vector256<int> count = default;
        for (int x = 0; x < one.Length; x += PixelLanes.Count)
        {
            Vector256<float> difference = PixelLanes.Levels(other, x) - PixelLanes.Levels(one, x);
            Vector256<int> counting = PixelLanes.Counting(oneTakes, x) & PixelLanes.Counting(otherTakes, x) & PixelLanes.Numbers(difference);
            Vector512<double> kept = LaneSum.Widened(PixelLanes.Kept(difference, counting));
            squares += kept * kept;
            count -= counting;
        }

        sum += LaneSum.Total(squares);
        pairs += Vector256.Sum(count);
    }
}
