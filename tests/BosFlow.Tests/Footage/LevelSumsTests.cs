using BosFlow.Footage;
using BosFlow.Speckle;

namespace BosFlow.Tests.Footage;

/// <summary>Sums in lanes beside plain loops, over sizes around the width of a group, with masked and missing pixels.</summary>
public sealed class LevelSumsTests
{
    // Whole grey levels add without rounding; only the square root and one division remain.
    private const double Rounding = 1e-12;

    public static TheoryData<int, int, bool> Sizes
    {
        get
        {
            var sizes = new TheoryData<int, int, bool>();
            foreach (int width in new[] { 1, 5, 7, 8, 9, 16, 31, 64 })
            {
                sizes.Add(width, 11, false);
                sizes.Add(width, 11, true);
            }

            return sizes;
        }
    }

    [Theory]
    [MemberData(nameof(Sizes))]
    public void Of_AnySize_EqualsThePlainLoop(int width, int height, bool hasGaps)
    {
        (GrayImage image, PixelMask mask) = Picture(width, height, hasGaps, 1);
        float[] valid = [.. Enumerable.Range(0, width * height).Where(i => mask.Values[i] != 0 && !float.IsNaN(image.Pixels[i])).Select(i => image.Pixels[i])];

        LevelCounts counts = LevelCounts.Of(image, mask);

        Assert.Equal(mask.Values.ToArray().Count(value => value != 0), counts.Measurable);
        Assert.Equal(valid.Length, counts.Valid);
        Assert.Equal(valid.Count(level => level >= 255), counts.Saturated);
        double mean = valid.Length == 0 ? double.NaN : valid.Average(level => (double)level);
        Assert.Equal(mean, counts.Mean, Rounding * 255);
        Assert.Equal(valid.Length == 0 ? double.NaN : Math.Sqrt(valid.Average(level => (level - mean) * (level - mean))), counts.Contrast, Rounding * 255);
        Assert.Equal(valid.Length == 0 ? 0 : valid.Max(Math.Abs), counts.LargestMagnitude);
    }

    [Theory]
    [MemberData(nameof(Sizes))]
    public void At_AnySize_EqualsThePlainLoop(int width, int height, bool hasGaps)
    {
        (GrayImage image, PixelMask mask) = Picture(width, height, hasGaps, 2);
        foreach (int distance in new[] { 1, 4 })
        {
            var squares = new List<double>();
            for (int i = 0; i < width * height; i++)
            {
                foreach (int other in new[] { (i % width) + distance < width ? i + distance : -1, (i / width) + distance < height ? i + (distance * width) : -1 })
                {
                    if (other >= 0 && mask.Values[i] != 0 && mask.Values[other] != 0 && !float.IsNaN(image.Pixels[i] + image.Pixels[other]))
                        squares.Add(Math.Pow(image.Pixels[other] - image.Pixels[i], 2));
                }
            }

            Assert.Equal(squares.Count == 0 ? double.NaN : squares.Average(), StructureFunction.At(distance, image, mask), Rounding * 255 * 255);
        }
    }

    [Fact]
    public void At_PictureBeyondAMillionPixels_IsThatOfASampleOfRows()
    {
        (GrayImage image, PixelMask mask) = Picture(2000, 1100, false, 3);

        double rough = StructureFunction.At(1, image, mask);

        // White noise of 0 to 255 in whole levels: twice its variance, (256^2 - 1) / 12.
        Assert.Equal(1, rough / (2 * ((256.0 * 256) - 1) / 12), 0.005);
    }

    private static (GrayImage Image, PixelMask Mask) Picture(int width, int height, bool hasGaps, ulong seed)
    {
        var random = new SeededRandom(seed);
        float[] levels = [.. Enumerable.Range(0, width * height).Select(_ => (float)Math.Floor(256 * random.NextUniform()))];
        byte[] taking = [.. Enumerable.Repeat((byte)1, width * height)];
        for (int i = 0; hasGaps && i < levels.Length; i++)
        {
            if (random.NextUniform() < 0.1)
                levels[i] = float.NaN;
            if (random.NextUniform() < 0.2)
                taking[i] = 0;
        }

        return (new GrayImage(width, height, levels, 255), new PixelMask(width, height, taking));
    }
}
