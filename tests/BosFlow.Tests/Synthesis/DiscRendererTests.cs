using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

/// <summary>Discs behind a blur, against sums and plain averages.</summary>
public sealed class DiscRendererTests
{
    private const int Side = 48;

    [Theory]
    [InlineData(2.0, 0.25)]
    [InlineData(3.3, 0.4)]
    [InlineData(9.0, 1.1)]
    public void Render_OneDisc_HasTheAreaOfTheDisc(double diameter, double sigma)
    {
        float[] levels = Render([new Dot(23.31, 24.18, 0.7)], diameter, sigma);

        Assert.Equal(0.7 * Math.PI * diameter * diameter / 4, levels.Sum(level => (double)level), 1e-4);
    }

    [Theory]
    [InlineData(3.0, 0.4, 0.13, -0.37)]
    [InlineData(6.0, 0.25, 0.5, 0.21)]
    public void Render_OneDisc_IsThePlainAverageOfShiftedGaussians(double diameter, double sigma, double offsetX, double offsetY)
    {
        float[] levels = Render([new Dot(24 + offsetX, 24 + offsetY, 1)], diameter, sigma);

        // The disc as a sum of Gaussians of area 1 / n on a fine lattice inside it.
        const double Step = 0.04;
        var spots = new List<Dot>();
        for (double y = -diameter / 2; y <= diameter / 2; y += Step)
        {
            for (double x = -diameter / 2; x <= diameter / 2; x += Step)
            {
                if ((x * x) + (y * y) < diameter * diameter / 4)
                    spots.Add(new Dot(24 + offsetX + x, 24 + offsetY + y, Step * Step / (2 * Math.PI * sigma * sigma)));
            }
        }

        float[] expected = DotRenderer.Render([.. spots], Side, Side, sigma, 0, CancellationToken.None);
        double worst = levels.Zip(expected, (a, b) => (double)Math.Abs(a - b)).Max();
        // The lattice's own ragged edge is a few thousandths.
        Assert.InRange(worst, 0, 0.01);
    }

    [Fact]
    public void Render_TinyDisc_IsTheGaussianOfItsArea()
    {
        const double Diameter = 0.5;
        const double Sigma = 0.9;

        float[] levels = Render([new Dot(22.2, 25.6, 1)], Diameter, Sigma);

        // Same second moment: D^2 / 16 more variance, and the same area.
        double wide = Math.Sqrt((Sigma * Sigma) + (Diameter * Diameter / 16));
        float[] expected = DotRenderer.Render([new Dot(22.2, 25.6, Diameter * Diameter / (8 * wide * wide))], Side, Side, wide, 0, CancellationToken.None);
        Assert.InRange(levels.Zip(expected, (a, b) => Math.Abs(a - b)).Max(), 0, 1e-5f);
    }

    [Fact]
    public void Scene_OfDiscs_ShowsInkAndPaper()
    {
        var recipe = new SceneRecipe
        {
            Width = 64,
            Height = 64,
            FrameCount = 1,
            Flow = new FlowRecipe.Shift(0, 0),
            Speckle = new SpeckleSettings { Shape = DotShape.Disc, DotDiameterPixels = 12, BlurPixels = 0.8, DotsPerPixel = 0.002, MinimumGapPixels = 14, ContrastFrom = -0.6, ContrastTo = -0.6 },
            Sensor = new SensorSettings { Background = 0.8, Bits = 0 },
        };

        BosFlow.Footage.GrayImage picture = new SyntheticScene(recipe, CancellationToken.None).Render(0, CancellationToken.None);

        Assert.Equal(0.2 * 255, picture.Pixels.ToArray().Min(), 0.1);
        Assert.Equal(0.8 * 255, picture.Pixels.ToArray().Max(), 0.1);
    }

    private static float[] Render(Dot[] dots, double diameter, double sigma) => DiscRenderer.Render(dots, Side, Side, diameter, sigma, 0, CancellationToken.None);
}
