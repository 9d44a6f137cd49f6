using BosFlow.Displacement;
using BosFlow.Speckle;

namespace BosFlow.Tests.Displacement;

public sealed class WindowOverlapTests
{
    [Theory]
    [InlineData(32, 8)]
    [InlineData(32, 16)]
    [InlineData(24, 10)]
    public void Correlation_TopHat_IsATriangle(int window, int spacing)
    {
        double[] correlation = WindowOverlap.Correlation(window, spacing, WindowWeighting.TopHat);

        Assert.Equal((window - 1) / spacing, correlation.Length - 1);
        for (int node = 0; node < correlation.Length; node++)
            Assert.Equal(1 - ((double)node * spacing / window), correlation[node], 1e-12);
    }

    [Fact]
    public void Correlation_WindowsThatTouch_IsNone() => Assert.Equal([1], WindowOverlap.Correlation(16, 16, WindowWeighting.TopHat));

    [Theory]
    [InlineData(WindowWeighting.TopHat)]
    [InlineData(WindowWeighting.Gaussian)]
    public void Correlation_EqualsThatOfAveragesOfIndependentPixels(WindowWeighting weighting)
    {
        const int Window = 16;
        const int Spacing = 4;
        const int Draws = 40000;
        double[] correlation = WindowOverlap.Correlation(Window, Spacing, weighting);
        var random = new SeededRandom(7);
        double[] pixels = [.. Enumerable.Range(0, Draws + (2 * Window)).Select(_ => random.NextNormal())];

        double[] averages = [.. Enumerable.Range(0, Draws + Window).Select(first => Enumerable.Range(0, Window).Sum(i => Weight(i, Window, weighting) * pixels[first + i]))];

        double own = averages.Take(Draws).Sum(value => value * value);
        for (int node = 1; node < correlation.Length; node++)
        {
            double product = 0;
            for (int i = 0; i < Draws; i++)
                product += averages[i] * averages[i + (node * Spacing)];
            // Neighbouring averages are alike, so that about Draws / Window of them are independent.
            Assert.Equal(correlation[node], product / own, 4 * Math.Sqrt((double)Window / Draws));
        }
    }

    private static double Weight(int i, int window, WindowWeighting weighting) =>
        weighting == WindowWeighting.TopHat ? 1 : Math.Exp(-0.5 * Math.Pow((i - ((window - 1) / 2.0)) / (window / 4.0), 2));
}
