using BosFlow.Numerics.Integration;
using BosFlow.TestKit;

namespace BosFlow.Numerics.Tests.Integration;

public sealed class GridStencilTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(7, 5)]
    [InlineData(16, 3)]
    [InlineData(33, 9)]
    public void Kernels_AnySize_AgreeWithTheLoopOverLinks(int columns, int rows)
    {
        int nodes = columns * rows;
        Random random = new(columns);
        GridStencil<double> stencil = new(columns, nodes);
        (double[] x, double[] b, double[] scale, double[] product, double[] residual, double[] smoothed) = (stencil.NewPlane(), stencil.NewPlane(), stencil.NewPlane(), stencil.NewPlane(), stencil.NewPlane(), stencil.NewPlane());
        for (int i = 0; i < nodes; i++)
        {
            int at = i + stencil.Pad;
            (x[at], b[at], scale[at], stencil.Excess[at]) = (random.NextDouble(), random.NextDouble(), random.NextDouble(), random.NextDouble());
            stencil.Right[at] = (i + 1) % columns == 0 ? 0 : random.NextDouble();
            stencil.Down[at] = i + columns >= nodes ? 0 : random.NextDouble();
        }

        stencil.Multiply(x, product, 0, nodes);
        stencil.Residual(x, b, residual, 0, nodes);
        stencil.Smooth(x, b, scale, 0.7, smoothed, 0, nodes);

        double[] expected = Reference(stencil, x, columns, nodes);
        for (int i = 0; i < nodes; i++)
        {
            int at = i + stencil.Pad;
            Assert.Equal(expected[i], product[at], Tolerances.DoubleKernel);
            Assert.Equal(b[at] - expected[i], residual[at], Tolerances.DoubleKernel);
            Assert.Equal(x[at] + (0.7 * scale[at] * (b[at] - expected[i])), smoothed[at], Tolerances.DoubleKernel);
        }
    }

    // The definition: each link pulls its two ends together.
    private static double[] Reference(GridStencil<double> stencil, double[] x, int columns, int nodes)
    {
        double[] product = new double[nodes];
        for (int i = 0; i < nodes; i++)
        {
            product[i] += stencil.Excess[i + stencil.Pad] * x[i + stencil.Pad];
            Link(stencil.Right[i + stencil.Pad], i, i + 1);
            Link(stencil.Down[i + stencil.Pad], i, i + columns);
        }

        return product;

        void Link(double weight, int i, int j)
        {
            if (weight == 0)
                return;
            product[i] += weight * (x[i + stencil.Pad] - x[j + stencil.Pad]);
            product[j] += weight * (x[j + stencil.Pad] - x[i + stencil.Pad]);
        }
    }
}
