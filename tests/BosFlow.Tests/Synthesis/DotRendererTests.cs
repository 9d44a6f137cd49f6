using BosFlow.Speckle;
using BosFlow.Synthesis;
using CsCheck;
using MathNet.Numerics.Integration;

namespace BosFlow.Tests.Synthesis;

public sealed class DotRendererTests
{
    [Fact]
    public void Render_OneDot_HasTheAnalyticSumAndItsCentreWhereItWasPut() =>
        Gen.Select(Gen.Double[15, 25], Gen.Double[15, 25], Gen.Double[0.4, 2], Gen.Double[-1, 1]).Sample((x, y, sigma, contrast) =>
        {
            float[] levels = Render([new Dot(x, y, contrast)], 40, 40, sigma);
            double sum = 0, momentX = 0, momentY = 0;
            for (int i = 0; i < levels.Length; i++)
            {
                sum += levels[i];
                momentX += levels[i] * (double)(i % 40);
                momentY += levels[i] * (double)(i / 40);
            }

            // Integral of c exp(-r^2 / (2 sigma^2)) over the plane.
            Assert.Equal(contrast * 2 * Math.PI * sigma * sigma, sum, 1e-5 * sigma * sigma);
            if (Math.Abs(contrast) > 0.1)
            {
                // A pixel-integrated dot's centre of mass is its own up to exp(-2 (pi sigma)^2): 0.04 px at sigma 0.4, 2e-6 px at 0.8.
                double aliasing = sigma >= 0.75 ? 1e-4 : 0.05;
                Assert.Equal(x, momentX / sum, aliasing);
                Assert.Equal(y, momentY / sum, aliasing);
            }
        }, iter: 200);

    [Theory]
    [InlineData(10.0, 10.0, 0.75, 10, 10)]
    [InlineData(10.3, 9.8, 0.75, 11, 9)]
    [InlineData(10.5, 10.5, 0.5, 12, 10)]
    [InlineData(9.77, 10.21, 1.5, 7, 13)]
    public void Render_OnePixel_EqualsNumericalQuadrature(double x, double y, double sigma, int column, int row)
    {
        double Light(double px, double py) => Math.Exp(-(((px - x) * (px - x)) + ((py - y) * (py - y))) / (2 * sigma * sigma));
        double quadrature = GaussLegendreRule.Integrate(Light, column - 0.5, column + 0.5, row - 0.5, row + 0.5, 32);
        float[] levels = Render([new Dot(x, y, 1)], 21, 21, sigma);
        Assert.Equal(quadrature, levels[(row * 21) + column], 2e-7);
    }

    [Fact]
    public void Render_DotAcrossBandsAndEdges_IsCutNotMoved()
    {
        // Rendered whole on a large picture, the same dot must give the same pixels where a small picture cuts it.
        var dots = new[] { new Dot(0.2, 31.6, 1), new Dot(39.4, 0.3, -0.5), new Dot(20, 63.7, 0.7) };
        float[] small = Render(dots, 40, 64, 1.2);
        float[] large = Render([.. dots.Select(dot => dot with { X = dot.X + 20, Y = dot.Y + 20 })], 80, 104, 1.2);
        for (int row = 0; row < 64; row++)
        {
            for (int column = 0; column < 40; column++)
                Assert.Equal(large[((row + 20) * 80) + column + 20], small[(row * 40) + column], 2e-7f);
        }
    }

    [Fact]
    public void Render_NoDots_IsBackground() =>
        Assert.All(DotRenderer.Render([new Dot(double.NaN, 3, 1), new Dot(500, 3, 1)], 8, 8, 1, 0.25, CancellationToken.None), level => Assert.Equal(0.25f, level));

    private static float[] Render(Dot[] dots, int width, int height, double sigma) =>
        DotRenderer.Render(dots, width, height, sigma, 0, CancellationToken.None);
}
