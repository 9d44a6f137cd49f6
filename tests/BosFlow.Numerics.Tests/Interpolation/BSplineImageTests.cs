using BosFlow.Numerics.Interpolation;
using MathNet.Numerics.Interpolation;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class BSplineImageTests
{
    [Theory]
    [InlineData(3, 6, 6)]
    [InlineData(3, 33, 17)]
    [InlineData(5, 6, 9)]
    [InlineData(5, 40, 31)]
    [InlineData(3, 20, 150)]
    [InlineData(5, 20, 150)]
    public void Sample_AtPixelCentres_GivesTheGreyLevels(int order, int width, int height)
    {
        float[] pixels = Noise(width * height, 1);
        var image = new BSplineImage(pixels, width, height, order);

        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
                Assert.Equal(pixels[(y * width) + x], image.Sample(x, y), 2e-3);
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    public void Filter_PictureOfSeveralParts_HasTheCoefficientsOfItsTransposedSelf(int order)
    {
        // Bands cut columns where they do not cut rows; turned by 90 degrees the same picture is cut elsewhere.
        const int Width = 24, Height = 150;
        float[] pixels = Noise(Width * Height, 3), turned = new float[Width * Height];
        for (int i = 0; i < pixels.Length; i++)
            turned[(i % Width * Height) + (i / Width)] = pixels[i];
        var image = new BSplineImage(pixels, Width, Height, order);
        var other = new BSplineImage(turned, Height, Width, order);

        for (double y = 1; y < Height - 1; y += 0.37)
            Assert.Equal(other.Sample(y, 11.3), image.Sample(11.3, y), 5e-4); // last places of levels up to 255, 1.5e-5 each, through two filters
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    public void Sample_PolynomialOfTheOrder_IsReproducedInside(int order)
    {
        // A spline of order n reproduces polynomials up to degree n; the mirrored border only disturbs its surroundings.
        double Surface(double x, double y) => 0.5 + (0.3 * Math.Pow((x - 30) / 30, order)) - (0.2 * Math.Pow((y - 30) / 30, 2));
        float[] pixels = new float[61 * 61];
        for (int y = 0; y < 61; y++)
        {
            for (int x = 0; x < 61; x++)
                pixels[(y * 61) + x] = (float)Surface(x, y);
        }

        var image = new BSplineImage(pixels, 61, 61, order);

        for (double y = 20; y < 40; y += 1.37)
        {
            for (double x = 20; x < 40; x += 0.73)
                Assert.Equal(Surface(x, y), image.Sample(x, y), 2e-6);
        }
    }

    [Fact]
    public void Sample_CubicFarFromTheBorder_AgreesWithMathNetsCubicSpline()
    {
        // MathNet's natural spline has other end conditions; their influence decays by 0.268 a pixel.
        float[] line = Noise(64, 2);
        double[] abscissae = [.. Enumerable.Range(0, 64).Select(i => (double)i)];
        CubicSpline expected = CubicSpline.InterpolateNaturalSorted(abscissae, [.. line.Select(v => (double)v)]);
        float[] pixels = new float[64 * 8];
        for (int y = 0; y < 8; y++)
            line.CopyTo(pixels, y * 64);
        var image = new BSplineImage(pixels, 64, 8, 3);

        for (double x = 16; x < 48; x += 0.21)
            Assert.Equal(expected.Interpolate(x), image.Sample(x, 4), 1e-3); // floats near 200
    }

    // Outside reference: SciPy 1.10.1, scipy.ndimage.map_coordinates(image, [[y], [x]], order, mode="mirror"), in double
    // precision, on image[y, x] = (37 x + 61 y + 13 x y) mod 101 of 11 x 9 px: rough on purpose.
    [Theory]
    [InlineData(3, 2.3, 3.7, 12.9473)]
    [InlineData(3, 5.5, 4.5, 42.8179)]
    [InlineData(3, 0.2, 0.9, 52.8683)]
    [InlineData(3, 9.6, 7.4, 83.3795)]
    [InlineData(3, 4.0, 6.25, 23.3278)]
    [InlineData(3, 7.125, 1.875, 46.2978)]
    [InlineData(5, 2.3, 3.7, 13.7168)]
    [InlineData(5, 5.5, 4.5, 44.3043)]
    [InlineData(5, 0.2, 0.9, 53.0019)]
    [InlineData(5, 9.6, 7.4, 83.6266)]
    [InlineData(5, 4.0, 6.25, 24.5672)]
    [InlineData(5, 7.125, 1.875, 44.0511)]
    public void Sample_AgainstSciPy_Agrees(int order, double x, double y, double expected)
    {
        float[] pixels = new float[99];
        for (int i = 0; i < 99; i++)
            pixels[i] = ((37 * (i % 11)) + (61 * (i / 11)) + (13 * (i % 11) * (i / 11))) % 101;

        Assert.Equal(expected, new BSplineImage(pixels, 11, 9, order).Sample(x, y), 1e-3); // single precision, coefficients to 400
    }

    [Theory]
    [InlineData(3, 0.02f)]
    [InlineData(5, 0.02f)]
    [InlineData(3, 9f)]
    [InlineData(5, 9f)]
    public void Row_AnyDisplacement_MatchesTheReferencePixelByPixel(int order, float roughness)
    {
        const int Width = 71, Height = 23;
        var image = new BSplineImage(Noise(Width * Height, 3), Width, Height, order);
        float[] target = new float[Width], expected = new float[Width], inside = new float[Width], expectedInside = new float[Width];
        for (int y = 0; y < Height; y++)
        {
            float[] u = [.. Noise(Width, 10 + y).Select(n => 1.3f + ((n - 100) * roughness / 100))];
            float[] v = [.. Noise(Width, 99 + y).Select(n => -0.6f + ((n - 100) * roughness / 100))];

            BSplineWarp.Row(image, y, u, v, target, inside);
            BSplineWarp.RowReference(image, 0, y, u, v, expected, expectedInside);

            Assert.Equal(expectedInside, inside);
            for (int x = 0; x < Width; x++)
                Assert.Equal(expected[x], target[x], 1e-3); // grey levels to 200, float rounding of 36 products
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    public void Row_NearTheBorderOrOutside_IsZeroThereAndInterpolatedElsewhere(int order)
    {
        const int Width = 40, Height = 12;
        var image = new BSplineImage(Noise(Width * Height, 6), Width, Height, order);
        float[] u = [.. Enumerable.Range(0, Width).Select(x => x < 9 ? -50.5f : 6.25f)], v = [.. Enumerable.Repeat(0.5f, Width)], target = new float[Width], inside = new float[Width];

        BSplineWarp.Row(image, 5, u, v, target, inside);

        for (int x = 0; x < Width; x++)
        {
            bool within = x >= 9 && x + 6.25f <= Width - 1 - BSplineWarp.BorderMargin;
            Assert.Equal(within ? 1 : 0, inside[x]);
            Assert.Equal(within ? image.Sample(x + 6.25, 5.5) : 0, target[x], 1e-3); // float rounding
        }
    }

    [Fact]
    public void Sample_OutsideThePicture_TakesTheBorder()
    {
        var image = new BSplineImage(Noise(64, 4), 8, 8, 5);

        Assert.Equal(image.Sample(0, 7), image.Sample(-5, 30));
        Assert.True(float.IsNaN(image.Sample(double.NaN, 0)));
    }

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        float[] values = new float[count];
        for (int i = 0; i < count; i++)
            values[i] = (float)(random.NextDouble() * 200);
        return values;
    }
}
