using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class SyntheticSceneTests
{
    private static readonly SceneRecipe Recipe = new()
    {
        Width = 96,
        Height = 80,
        FrameCount = 4,
        FlowOffCount = 2,
        Flow = new FlowRecipe.Shift(1.25, -0.5),
        Shake = new ShakeSettings { ShiftPixels = 2, RotationDegrees = 0.1, ScalePercent = 0.1 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = 11,
    };

    [Fact]
    public void Render_SameRecipe_GivesSameBits()
    {
        GrayImage first = new SyntheticScene(Recipe, CancellationToken.None).Render(3, CancellationToken.None);
        GrayImage second = new SyntheticScene(Recipe, CancellationToken.None).Render(3, CancellationToken.None);
        Assert.True(first.Pixels.SequenceEqual(second.Pixels));
    }

    [Fact]
    public void Render_FrameWithFlow_ShowsEveryDotWhereTheTruthSays()
    {
        // One isolated dot, found by its centre of mass, against motion(x + u): nothing of the picture is resampled.
        SceneRecipe lonely = Recipe with
        {
            Sensor = new SensorSettings { Bits = 0, Background = 0 },
            Speckle = new SpeckleSettings { DotsPerPixel = 0.00003, MarginPixels = 40 },
        };
        ulong seed = 1;
        while (SpecklePattern.Draw(96, 80, lonely.Speckle with { Seed = seed })[0] is not { X: > 10 and < 85, Y: > 10 and < 70 })
            seed++;
        lonely = lonely with { Speckle = lonely.Speckle with { Seed = seed } };
        Dot dot = Assert.Single(SpecklePattern.Draw(96, 80, lonely.Speckle));
        var scene = new SyntheticScene(lonely, CancellationToken.None);

        GrayImage image = scene.Render(3, CancellationToken.None);

        double sum = 0, momentX = 0, momentY = 0;
        for (int y = 0; y < 80; y++)
        {
            for (int x = 0; x < 96; x++)
            {
                sum += image[x, y];
                momentX += image[x, y] * (double)x;
                momentY += image[x, y] * (double)y;
            }
        }

        (double u, double v) = scene.MotionAt(3).DisplacementAt(dot.X + 1.25, dot.Y - 0.5);
        Assert.Equal(dot.X + 1.25 + u, momentX / sum, 1e-4);
        Assert.Equal(dot.Y - 0.5 + v, momentY / sum, 1e-4);
    }

    [Fact]
    public void MotionAt_FirstFrame_IsAtRest()
    {
        var scene = new SyntheticScene(Recipe, CancellationToken.None);
        Assert.Equal(0, scene.MotionAt(0).DisplacementAt(50, 40).U, 1e-9);
        Assert.False(scene.HasFlow(1));
        Assert.True(scene.HasFlow(2));
    }

    [Fact]
    public void TruthAt_NoRig_HasDisplacementOnly()
    {
        SceneTruth truth = new SyntheticScene(Recipe, CancellationToken.None).TruthAt(new NodeGrid(7.5, 7.5, 8, 10, 8), CancellationToken.None);
        Assert.All(truth.U, u => Assert.Equal(1.25f, u));
        Assert.All(truth.V, v => Assert.Equal(-0.5f, v));
        Assert.Null(truth.DensityGradientPathX);
    }

    [Fact]
    public void TruthAt_HotJet_PathGradientAgreesWithDisplacementTimesScale()
    {
        // Two routes to the same quantity: the ray's own path integral, and the thin formula -n0 S u / (Z_D K) of the displacement.
        var scene = new SyntheticScene(JetRecipe(), CancellationToken.None);
        SceneTruth truth = scene.TruthAt(new NodeGrid(7.5, 7.5, 8, 38, 28), CancellationToken.None);
        double peak = truth.DensityGradientPathX!.Max(Math.Abs);
        Assert.True(peak > 0.3, $"{peak} kg m-3");
        for (int i = 0; i < truth.U.Length; i++)
        {
            Assert.Equal(truth.DensityGradientPathX![i], scene.Scale!.DensityGradientPathPerPixel * truth.U[i], 0.01 * peak);
            Assert.Equal(truth.DensityGradientPathY![i], scene.Scale!.DensityGradientPathPerPixel * truth.V[i], 0.01 * peak);
        }
    }

    [Fact]
    public void SceneGas_HeatedAir_HasTheDeficitOfTheIdealGas()
    {
        // Sea level, K = 2.2564e-4 m3/kg, 600 K: peak deflection 1.52035 |delta0| = 2.18e-4 rad (computed independently).
        var gas = new SceneGas(2.2564e-4, 1.225, 288.15);
        Assert.Equal(2.18e-4, 1.52035 * -gas.IndexExcess(600), 1e-6);
    }

    [Fact]
    public void Scene_ImpossibleRecipe_NamesEveryProblem()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => new SyntheticScene(
            Recipe with { Width = 5, FlowOffCount = 9, Sensor = new SensorSettings { Bits = 14 } }, CancellationToken.None));
        Assert.Contains("5 x 80 px", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("flow-off frames is 9", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("14 bits", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Scene_MarginTooSmall_IsRefused()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => new SyntheticScene(
            Recipe with { Speckle = new SpeckleSettings { MarginPixels = 2 } }, CancellationToken.None));
        Assert.Contains("margin of 2 px", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Scene_JetWithoutRig_IsRefused() =>
        Assert.Throws<ConfigurationException>(() => new SyntheticScene(JetRecipe() with { Rig = null }, CancellationToken.None));

    [Fact]
    public void Scene_JetThatNarrowsInView_IsRefused() =>
        Assert.Throws<ConfigurationException>(() => new SyntheticScene(JetRecipe() with { Flow = new FlowRecipe.Jet(160, 60, 90, 2e-3, 0.12, 600) }, CancellationToken.None));

    private static SceneRecipe JetRecipe() => new()
    {
        Width = 320,
        Height = 240,
        FrameCount = 2,
        FlowOffCount = 1,
        Flow = new FlowRecipe.Jet(150, 230, 80, 4e-3, 0.1, 600),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, BackgroundMetresPerPixel = 0.3e-3 },
    };
}
