using BosFlow.Numerics.Interpolation;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class FineSplineTests
{
    private const int Width = 40;
    private const int Height = 30;

    [Fact]
    public void Through_AtPixels_GivesTheGreyLevels()
    {
        float[] pixels = Noise(Width * Height, 1);

        float[] back = FineSpline.Through(pixels, Width, Height).AtPixels();

        for (int i = 0; i < pixels.Length; i++)
            Assert.Equal(pixels[i], back[i], 2e-3);
    }

    [Fact]
    public void Sample_OfAWave_IsItBetweenThePixels()
    {
        FineSpline fine = FineSpline.Through(Wave(0.15, 0, 0), Width, Height);
        float[] dx = [.. Enumerable.Repeat(0.3f, Width - 2)], dy = [.. Enumerable.Repeat(-0.45f, Width - 2)], row = new float[Width - 2];

        FineSplineRows.Sample(fine, 15, dx, dy, row);

        for (int x = 6; x < Width - 8; x++)
            Assert.Equal(100 + (20 * Math.Sin(2 * Math.PI * 0.15 * (x + 0.3))), row[x], 0.02);
    }

    [Fact]
    public void Part_OfAPicture_IsTheSameSurfaceElsewhere()
    {
        FineSpline fine = FineSpline.Through(Noise(Width * Height, 4), Width, Height);
        float[] dx = [.. Enumerable.Repeat(0.3f, 10)], dy = [.. Enumerable.Repeat(-0.45f, 10)], whole = new float[10], part = new float[10];

        FineSplineRows.SampleReference(fine, 7, 12, dx, dy, whole);
        FineSplineRows.SampleReference(fine.Part(5, 9, 14, 12), 2, 3, dx, dy, part);

        Assert.Equal(whole, part);
        Assert.Throws<ArgumentOutOfRangeException>(() => fine.Part(5, 9, Width - 4, 12));
    }

    [Theory]
    [InlineData(0.01f)]
    [InlineData(0.4f)]
    public void Sample_WithVectors_IsThePlainDefinition(float slope)
    {
        // With the steep slope the pixels of a vector do not share the whole part of their displacement.
        FineSpline fine = FineSpline.Through(Noise(Width * Height, 2), Width, Height);
        (float[] dx, float[] dy) = Slopes(slope);
        float[] fast = new float[Width], plain = new float[Width];

        FineSplineRows.Sample(fine, 15, dx, dy, fast);
        FineSplineRows.SampleReference(fine, 0, 15, dx, dy, plain);

        for (int x = 0; x < Width; x++)
            Assert.Equal(plain[x], fast[x], 1e-4 * Math.Abs(plain[x]) + 1e-4);
    }

    [Theory]
    [InlineData(0.01f)]
    [InlineData(0.4f)]
    public void Spread_IsTheTransposeOfSample(float slope)
    {
        // The sum of values times samples is the sum of coefficients times what the values are spread to.
        FineSpline fine = FineSpline.Through(Noise(Width * Height, 3), Width, Height);
        (float[] dx, float[] dy) = Slopes(slope);
        float[] values = Noise(Width, 4), samples = new float[Width], sums = new float[fine.Coefficients.Length];

        FineSplineRows.Sample(fine, 12, dx, dy, samples);
        FineSplineRows.Spread(fine, 12, dx, dy, values, sums, 0, fine.Rows);

        double left = 0, right = 0;
        for (int x = 0; x < Width; x++)
            left += (double)values[x] * samples[x];
        for (int i = 0; i < sums.Length; i++)
            right += (double)sums[i] * fine.Coefficients[i];
        Assert.Equal(left, right, 1e-4 * Math.Abs(left));
    }

    [Fact]
    public void Multiply_OfAWave_GrowsWithTheEighthPowerOfItsFrequency()
    {
        const double Frequency = 0.1;
        var layout = new FineSpline(Width, Height);
        float[] wave = new float[layout.Coefficients.Length], scratch = new float[wave.Length], product = new float[wave.Length];
        for (int row = 0; row < layout.Rows; row++)
        {
            for (int i = 0; i < 2 * layout.HalfColumns; i++)
                wave[(row * layout.Stride) + ((i & 1) * layout.Plane) + (i >> 1)] = (float)Math.Sin(Math.PI * Frequency * i);
        }

        FineRoughness.Multiply(layout, wave, scratch, product, new ParallelOptions());

        // The Laplacian of the grid multiplies a wave by 2 - 2 cos(pi f), which is (pi f)^2 (1 - (pi f)^2 / 12 ...).
        int at = (20 * layout.Stride) + 18;
        Assert.Equal(Math.Pow(2 - (2 * Math.Cos(Math.PI * Frequency)), 4), product[at] / wave[at], 1e-5);
        Assert.Equal(Math.Pow(Math.PI * Frequency, 8), product[at] / wave[at], 5e-6);
    }

    [Fact]
    public void Sample_OutsideThePicture_IsRefused()
    {
        float[] dx = [-2], dy = [0], row = new float[1];

        Assert.Throws<ArgumentException>(() => FineSplineRows.Sample(new FineSpline(Width, Height), 5, dx, dy, row));
    }

    private static (float[] Dx, float[] Dy) Slopes(float slope)
    {
        float[] dx = [.. Enumerable.Range(0, Width).Select(x => Math.Clamp((0.3f + (slope * (x - 20))), -x, Width - 1 - x))];
        float[] dy = [.. Enumerable.Range(0, Width).Select(x => -0.7f + (slope * 0.5f * x))];
        return (dx, dy);
    }

    private static float[] Wave(double frequency, double shiftX, double phase) =>
        [.. Enumerable.Range(0, Width * Height).Select(i => (float)(100 + (20 * Math.Sin((2 * Math.PI * frequency * ((i % Width) + shiftX)) + phase))))];

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (float)(100 * random.NextDouble()))];
    }
}
