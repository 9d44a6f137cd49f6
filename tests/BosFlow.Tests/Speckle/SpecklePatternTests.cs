using BosFlow.Speckle;
using CsCheck;

namespace BosFlow.Tests.Speckle;

public sealed class SpecklePatternTests
{
    [Fact]
    public void Draw_SameSeed_GivesSameDots()
    {
        var settings = new SpeckleSettings { Seed = 7, MinimumGapPixels = 3 };
        Assert.Equal(SpecklePattern.Draw(60, 50, settings), SpecklePattern.Draw(60, 50, settings));
        Assert.NotEqual(SpecklePattern.Draw(60, 50, settings), SpecklePattern.Draw(60, 50, settings with { Seed = 8 }));
    }

    [Fact]
    public void Draw_AnySettings_KeepsCountGapAreaAndContrast() =>
        Gen.Select(Gen.Int[20, 90], Gen.Int[20, 90], Gen.Double[0, 4], Gen.Int[0, 30], Gen.ULong).Sample((width, height, gap, margin, seed) =>
        {
            var settings = new SpeckleSettings { DotsPerPixel = 0.035, MinimumGapPixels = gap, MarginPixels = margin, Seed = seed, ContrastFrom = -0.6, ContrastTo = -0.4 };
            IReadOnlyList<Dot> dots = SpecklePattern.Draw(width, height, settings);
            Assert.Equal(Math.Round(0.035 * (width + (2 * margin)) * (height + (2 * margin))), dots.Count);
            Assert.All(dots, dot =>
            {
                Assert.InRange(dot.X, -margin - 0.5, width + margin - 0.5);
                Assert.InRange(dot.Y, -margin - 0.5, height + margin - 0.5);
                Assert.InRange(dot.Contrast, -0.6, -0.4);
            });
            Assert.True(NearestDistance(dots) >= gap);
        }, iter: 40);

    [Fact]
    public void Draw_PurelyRandom_HasThePoissonNearestNeighbourDistance()
    {
        // Mean distance to the nearest neighbour of a planar Poisson process of density rho is 1 / (2 sqrt(rho)): P. Hertz 1909, Math. Ann. 67:387.
        var settings = new SpeckleSettings { DotsPerPixel = 0.05, MarginPixels = 0 };
        IReadOnlyList<Dot> dots = SpecklePattern.Draw(400, 400, settings);
        double sum = 0;
        int count = 0;
        foreach (Dot dot in dots.Where(d => d.X is > 20 and < 380 && d.Y is > 20 and < 380).Take(1000))
        {
            sum += dots.Where(other => other != dot).Min(other => Math.Sqrt(Math.Pow(other.X - dot.X, 2) + Math.Pow(other.Y - dot.Y, 2)));
            count++;
        }

        // Standard deviation of one distance is 0.26 / sqrt(rho) = 1.17 px, of the mean of 1000 about 0.04 px.
        Assert.Equal(1 / (2 * Math.Sqrt(0.05)), sum / count, 0.15);
    }

    [Theory]
    [InlineData(5, 0.05)]
    [InlineData(double.NaN, 0.05)]
    [InlineData(0, 0.0)]
    public void Draw_ImpossibleSettings_AreRefused(double gap, double density) =>
        Assert.Throws<ConfigurationException>(() => SpecklePattern.Draw(100, 100, new SpeckleSettings { MinimumGapPixels = gap, DotsPerPixel = density }));

    private static double NearestDistance(IReadOnlyList<Dot> dots)
    {
        double nearest = double.PositiveInfinity;
        for (int i = 0; i < dots.Count; i++)
        {
            for (int j = 0; j < i; j++)
                nearest = Math.Min(nearest, Math.Sqrt(Math.Pow(dots[i].X - dots[j].X, 2) + Math.Pow(dots[i].Y - dots[j].Y, 2)));
        }

        return nearest;
    }
}
