using System.Runtime.Intrinsics;

namespace BosFlow.Displacement;

/// <summary>A picture at half its resolution: means of 2 x 2 pixels.</summary>
internal static class HalfPicture
{
    /// <summary>Reduces two rows of a picture to one.</summary>
    /// <param name="upper">Upper row.</param>
    /// <param name="lower">Lower row, same length.</param>
    /// <param name="target">Half as many means; a last odd pixel is left out.</param>
    public static void Reduce(ReadOnlySpan<float> upper, ReadOnlySpan<float> lower, Span<float> target)
    {
        int x = 0, width = upper.Length / 2;
        if (Vector256.IsHardwareAccelerated)
        {
            for (; x <= width - 4; x += 4)
            {
                Vector256<float> pairs = Vector256.Create(upper.Slice(2 * x, 8)) + Vector256.Create(lower.Slice(2 * x, 8));
                Vector256<float> sorted = Vector256.Shuffle(pairs, Vector256.Create(0, 2, 4, 6, 1, 3, 5, 7));
                ((sorted.GetLower() + sorted.GetUpper()) * 0.25f).CopyTo(target.Slice(x, 4));
            }
        }

        for (; x < width; x++)
            target[x] = (upper[2 * x] + lower[2 * x] + (upper[(2 * x) + 1] + lower[(2 * x) + 1])) * 0.25f;
    }
}
