using BosFlow.Numerics.Interpolation;
using BosFlow.Numerics.Vectors;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class TileProductsTests
{
    private const int Width = 96;
    private const int Height = 64;
    private const int Tiles = 3;
    private const int Rows = 8;
    private const int X = 20;
    private const int Y = 24;
    private const float Step = 1f / short.MaxValue;

    [Theory]
    [InlineData(3, 0.01)]
    [InlineData(5, 0.01)]
    [InlineData(3, 3.0)]
    [InlineData(5, 3.0)]
    public void Sum_EveryWidthOfVectors_AgreesWithOneLane(int order, double scatter)
    {
        float[] plain = Sums<Lane1>(order, scatter);

        AssertClose(plain, Sums<Lanes4>(order, scatter));
        AssertClose(plain, Sums<Lanes8>(order, scatter));
        AssertClose(plain, Sums<Lanes16>(order, scatter));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    public void Sum_OneLane_IsTheSumOverSampledPixels(int order)
    {
        var image = new BSplineImage(Noise(Width * Height, 1), Width, Height, order);
        (float[] u, float[] v, float[] weights, short[] reference) = Inputs(0.5);
        float[] sums = Sums<Lane1>(order, 0.5);
        for (int column = 0; column < Tiles * TileRow.Columns; column++)
        {
            double expected = 0;
            for (int y = 0; y < Rows; y++)
            {
                double du = 0, dv = 0;
                for (int j = 0; j < 4; j++)
                {
                    du += weights[(4 * y) + j] * u[(j * Width) + X + column];
                    dv += weights[(4 * y) + j] * v[(j * Width) + X + column];
                }

                int at = (((column / TileRow.Columns * Rows) + y) * 3 * TileRow.Columns) + (column % TileRow.Columns);
                double e = image.Sample(X + column + du, Y + y + dv) - 0.25 - (reference[at] * Step);
                expected += e * reference[at + TileRow.Columns] * 2 * Step;
            }

            Assert.Equal(expected, sums[column], 1e-4); // eight products of order one; Sample rounds positions to 4e-6 px
        }
    }

    private static void AssertClose(float[] expected, float[] actual)
    {
        for (int i = 0; i < expected.Length; i++)
            Assert.Equal(expected[i], actual[i], 2e-5); // rounding of eight products of order one, once with and once without fused multiplication
    }

    private static float[] Sums<T>(int order, double scatter)
        where T : struct, ILanes<T>
    {
        var image = new BSplineImage(Noise(Width * Height, 1), Width, Height, order);
        (float[] u, float[] v, float[] weights, short[] reference) = Inputs(scatter);
        float[] sums = new float[TileProducts.Terms * Tiles * TileRow.Columns];
        var row = new TileRow
        {
            X = X,
            Y = Y,
            Rows = Rows,
            Summed = new byte[] { 1, 1, 1 },
            U = u,
            V = v,
            Stride = Width,
            Weights = weights,
            Reference = reference,
            LevelStep = Step,
            GradientStep = 2 * Step,
            FrameLevel = 0.25f,
        };
        TileProducts.Sum<T>(image, row, sums);
        return sums;
    }

    private static (float[] U, float[] V, float[] Weights, short[] Reference) Inputs(double scatter)
    {
        float[] u = [.. Noise(4 * Width, 2).Select(value => (float)(2.4 + (scatter * value)))];
        float[] v = [.. Noise(4 * Width, 3).Select(value => (float)(-3.1 + (scatter * value)))];
        float[] weights = new float[4 * Rows];
        for (int y = 0; y < Rows; y++)
            (weights[(4 * y) + 1], weights[(4 * y) + 2]) = (1 - (y / 8f), y / 8f);
        return (u, v, weights, [.. Noise(3 * Tiles * TileRow.Columns * Rows, 4).Select(value => (short)(value / Step))]);
    }

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (float)((random.NextDouble() * 2) - 1))];
    }
}
