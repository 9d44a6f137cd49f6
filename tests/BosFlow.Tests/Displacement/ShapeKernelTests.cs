using BosFlow.Displacement;
using BosFlow.Registration;
using BosFlow.Speckle;
using MathNet.Numerics.LinearAlgebra;

namespace BosFlow.Tests.Displacement;

public sealed class ShapeKernelTests
{
    // A. Savitzky and M. J. E. Golay 1964, Anal. Chem. 36:1627, table I: smoothing by a quadratic over 5, 7 and 9 points.
    private static readonly Dictionary<int, double[]> Published = new()
    {
        [5] = [-3, 12, 17, 12, -3],
        [7] = [-2, 3, 6, 7, 6, 3, -2],
        [9] = [-21, 14, 39, 54, 59, 54, 39, 14, -21],
    };

    [Theory]
    [InlineData(5)]
    [InlineData(7)]
    [InlineData(9)]
    public void Along_WindowWithoutBlocks_HasThePublishedWeights(int window)
    {
        double sum = Published[window].Sum();

        double[] weights = ShapeKernel.Along(new DisplacementSettings { WindowPixels = window, SpacingPixels = 1, Shape = WindowShape.Quadratic });

        for (int i = 0; i < window; i++)
            Assert.Equal(Published[window][i] / sum, weights[i], 1e-6);
    }

    [Theory]
    [InlineData(48, 8)]
    [InlineData(40, 4)]
    [InlineData(32, 8)]
    public void OfBoth_WeightsOfBothAxes_AreTheFitOverTheSquare(int window, int spacing)
    {
        var settings = new DisplacementSettings { WindowPixels = window, SpacingPixels = spacing, Shape = WindowShape.Quadratic };
        int side = BlockLayout.SideOf(window, spacing, WindowSizing.Fixed, WindowShape.Quadratic), blocks = window / side;
        double half = (window - 1) / 2.0;

        // Means over blocks of 1, x, y, x^2, xy, y^2 of the pixels' own places, fitted to values of blocks.
        double Mean(int block, int power) => Enumerable.Range(block * side, side).Average(x => Math.Pow((x - half) / half, power));
        Matrix<double> design = Matrix<double>.Build.Dense(blocks * blocks, 6, (row, k) =>
        {
            (int x, int y) = (row % blocks, row / blocks);
            return k switch { 0 => 1, 1 => Mean(x, 1), 2 => Mean(y, 1), 3 => Mean(x, 2), 4 => Mean(x, 1) * Mean(y, 1), _ => Mean(y, 2) };
        });
        Vector<double> expected = (design.TransposeThisAndMultiply(design).Inverse() * design.Transpose()).Row(0);

        for (int block = 0; block < expected.Count; block++)
            Assert.Equal(expected[block], Weight(settings, block % blocks * side, block / blocks * side) * side * side, 1e-6);

        Assert.Equal(expected.Sum(weight => weight * weight) * blocks * blocks, ShapeKernel.Variance(settings), 1e-5);
    }

    [Fact]
    public void Variance_FineBlocks_TendsToThatOfTheFormula()
    {
        // The square of 9/4 - 15 t^2 has the mean 9/4, 5/4 beyond the top hat's: 1 + 2 * 5/4.
        Assert.Equal(3.5, ShapeKernel.Variance(new DisplacementSettings { WindowPixels = 125, SpacingPixels = 1, Shape = WindowShape.Quadratic }), 0.001);
        Assert.Equal(1, ShapeKernel.Variance(new DisplacementSettings { Shape = WindowShape.Affine }));
    }

    [Fact]
    public void EngineResponse_OnePassWithoutSmoothing_IsTheTransformOfTheWeights()
    {
        // For fine blocks the weights are 9/4 - 15 t^2, summed here over the formula itself.
        var settings = new DisplacementSettings { WindowPixels = 126, SpacingPixels = 1, Passes = 1, PredictorSmoothings = 0, Shape = WindowShape.Quadratic };
        const double Wavelength = 1.3 * 126;
        double sum = 0;
        for (int i = 0; i < 100000; i++)
        {
            double t = ((i + 0.5) / 100000) - 0.5;
            sum += ((2.25 - (15 * t * t)) * Math.Cos(2 * Math.PI * t * 126 / Wavelength)) / 100000;
        }

        double coarse = Math.Sin(Math.PI * 64 / Wavelength) / (Math.PI * 64 / Wavelength);
        Assert.Equal(coarse + (sum * (1 - coarse)), new EngineResponse(settings).At(1 / Wavelength), 1e-3);
    }

    [Fact]
    public void Correlation_Quadratic_IsThatOfFitsToIndependentPixels()
    {
        // The weights over the square, moved along x, by brute force.
        var settings = new DisplacementSettings { WindowPixels = 32, SpacingPixels = 8, Shape = WindowShape.Quadratic };
        double[] weights = [.. Enumerable.Range(0, 32 * 32).Select(i => Weight(settings, i % 32, i / 32))];
        double Product(int apart) => Enumerable.Range(0, 32 * 32).Where(i => (i % 32) + apart < 32).Sum(i => weights[i] * weights[i + apart]);

        double[] correlation = WindowOverlap.Correlation(settings, 8);

        Assert.Equal(4, correlation.Length);
        for (int node = 0; node < 4; node++)
            Assert.Equal(Product(8 * node) / Product(0), correlation[node], 1e-9);
        Assert.Equal(WindowOverlap.Correlation(32, 8, WindowWeighting.TopHat), WindowOverlap.Correlation(settings with { Shape = WindowShape.Constant }, 8));
    }

    [Theory]
    [InlineData(48, 8, 1, 3)]
    [InlineData(48, 16, 2, 3)]
    [InlineData(32, 8, 1, 2)]
    public void IterationNoise_Quadratic_IsTheVarianceAfterThePasses(int window, int spacing, int smoothings, int passes)
    {
        // The passes themselves in plain loops: white numbers at the pixels, seen by windows of the shape of each pass.
        var settings = new DisplacementSettings { WindowPixels = window, SpacingPixels = spacing, PredictorSmoothings = smoothings, Passes = passes, Shape = WindowShape.Quadratic };
        const int Size = 768;
        var random = new SeededRandom(5);
        double[] white = [.. Enumerable.Range(0, Size * Size).Select(_ => random.NextNormal())];
        WindowLayout layout = WindowLayout.Fill(Size, Size, window, spacing);
        NodeGrid grid = layout.Grid;
        double[] mean = StatedSigmaTests.WindowMeans(layout, (x, y) => white[(y * Size) + x]), shaped = ShapedValues(layout, settings, (x, y) => white[(y * Size) + x]);
        var predictor = new PredictorField(grid, Size, Size);
        predictor.SetMotion(PlanarMotion.Identity);
        float[] steer = new float[grid.Count], scratch = new float[grid.Count], zero = new float[grid.Count], pixels = new float[Size * Size], v = new float[Size];
        double[] result = new double[grid.Count];
        for (int pass = 1; pass <= passes; pass++)
        {
            for (int node = 0; node < steer.Length; node++)
                steer[node] = (float)result[node];
            PredictorUpdate.Smooth(grid, steer, scratch, smoothings);
            predictor.Set(steer, zero);
            for (int y = 0; y < Size; y++)
                predictor.Row(y, Size, pixels.AsSpan(y * Size, Size), v);
            bool isShaped = pass >= settings.FirstResolvingPass;
            double[] seen = isShaped ? ShapedValues(layout, settings, (x, y) => pixels[(y * Size) + x]) : StatedSigmaTests.WindowMeans(layout, (x, y) => pixels[(y * Size) + x]);
            for (int node = 0; node < result.Length; node++)
                result[node] = steer[node] + (isShaped ? shaped : mean)[node] - seen[node];
        }

        int border = 2 * window / spacing;
        double ratio = StatedSigmaTests.Variance(grid, result, border) / StatedSigmaTests.Variance(grid, shaped, border);
        Assert.Equal(1, ratio / IterationNoise.OfClearGradients(settings), 0.08);
        Assert.True(IterationNoise.OfClearGradients(settings) > 1.005);
    }

    private static double Weight(DisplacementSettings settings, int x, int y)
    {
        double w = 1.0 / settings.WindowPixels;
        double[] h = ShapeKernel.Along(settings);
        return (h[x] * w) + (w * h[y]) - (w * w);
    }

    private static double[] ShapedValues(WindowLayout layout, DisplacementSettings settings, Func<int, int, double> value)
    {
        double[] values = new double[layout.Grid.Count], weights = [.. Enumerable.Range(0, layout.Size * layout.Size).Select(i => Weight(settings, i % layout.Size, i / layout.Size))];
        for (int node = 0; node < values.Length; node++)
        {
            int left = layout.Left(node % layout.Grid.Columns), top = layout.Top(node / layout.Grid.Columns);
            for (int y = 0; y < layout.Size; y++)
            {
                for (int x = 0; x < layout.Size; x++)
                    values[node] += weights[(y * layout.Size) + x] * value(left + x, top + y);
            }
        }

        return values;
    }
}
