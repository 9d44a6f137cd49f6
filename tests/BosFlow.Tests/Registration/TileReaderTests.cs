using BosFlow.Footage;
using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

public sealed class TileReaderTests
{
    private const int Width = 90;
    private const int Height = 70;
    private const int Size = 32;

    // Levels up to 1000 in single precision.
    private const double Rounding = 1e-3;

    [Theory]
    [InlineData(0, 0)]
    [InlineData(31, 17)]
    [InlineData(-9, 5)]
    [InlineData(70, 60)]
    public void Read_TileAnywhere_IsEachPixelLessTheMeanOfItsBox(int left, int top)
    {
        GrayImage image = Picture();
        float[] tile = new float[Size * Size];

        double share = new TileReader(Size).Read(image, null, left, top, tile);

        (double expectedShare, double[] levels) = Plain(image, left, top);
        Assert.Equal(expectedShare, share, 1e-12);
        for (int i = 0; i < tile.Length; i++)
            Assert.Equal(levels[i] - BoxMean(levels, i % Size, i / Size), tile[i], Rounding);
    }

    [Fact]
    public void Read_MaskedPixels_CountAsMissing()
    {
        var mask = new PixelMask(Width, Height, [.. Enumerable.Range(0, Width * Height).Select(i => (byte)(i % 2))]);

        double share = new TileReader(Size).Read(Picture(), mask, 2, 2, new float[Size * Size]);

        Assert.InRange(share, 0.45, 0.5);
    }

    [Fact]
    public void Read_TileBesideThePicture_IsZero()
    {
        float[] tile = [.. Enumerable.Repeat(1f, Size * Size)];

        Assert.Equal(0, new TileReader(Size).Read(Picture(), null, Width, 0, tile));
        Assert.All(tile, level => Assert.Equal(0, level));
    }

    private static GrayImage Picture()
    {
        var random = new Random(3);
        float[] levels = [.. Enumerable.Range(0, Width * Height).Select(_ => 1000 * random.NextSingle())];
        (levels[5], levels[3000], levels[3001]) = (float.NaN, float.PositiveInfinity, float.NaN);
        return new GrayImage(Width, Height, levels, 1023);
    }

    private static (double Share, double[] Levels) Plain(GrayImage image, int left, int top)
    {
        double[] levels = [.. Enumerable.Range(0, Size * Size).Select(i =>
        {
            (int x, int y) = (left + (i % Size), top + (i / Size));
            return x < 0 || y < 0 || x >= Width || y >= Height || !float.IsFinite(image[x, y]) ? double.NaN : image[x, y];
        })];
        double[] known = [.. levels.Where(double.IsFinite)];
        return ((double)known.Length / levels.Length, [.. levels.Select(level => double.IsNaN(level) ? known.Average() : level)]);
    }

    private static double BoxMean(double[] levels, int atX, int atY) => levels
        .Where((_, i) => Math.Abs((i % Size) - atX) <= Size / 8 && Math.Abs((i / Size) - atY) <= Size / 8)
        .Average();
}
