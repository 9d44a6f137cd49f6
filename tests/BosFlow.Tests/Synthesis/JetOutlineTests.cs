using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class JetOutlineTests
{
    private static readonly SceneRecipe Recipe = new()
    {
        Width = 320,
        Height = 240,
        FrameCount = 2,
        FlowOffCount = 1,
        Flow = new FlowRecipe.Jet(150, 250, 75, 2.6e-3, 0.06, 573),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 3.45e-6 },
    };

    [Fact]
    public void Of_Jet_HoldsEveryDisplacementThatMatters()
    {
        var scene = new SyntheticScene(Recipe, CancellationToken.None);
        PixelPolygon outline = JetOutline.Of(scene)!;
        Assert.All(outline.Corners, corner =>
        {
            Assert.InRange(corner.X, 0, 319);
            Assert.InRange(corner.Y, 0, 239);
        });
        RegionMask region = RegionMask.Build(new RegionSettings { Flow = [outline] }, 320, 240);
        SceneTruth truth = scene.TruthAt(new NodeGrid(2, 2, 4, 79, 59), CancellationToken.None);
        double peak = truth.U.Max(Math.Abs);
        int outside = 0;
        for (int i = 0; i < truth.U.Length; i++)
        {
            int x = 2 + (4 * (i % 79));
            int y = 2 + (4 * (i / 79));
            if (!region.Undisturbed[x, y])
                continue;
            outside++;
            Assert.True(Math.Abs(truth.U[i]) < 0.005 * peak && Math.Abs(truth.V[i]) < 0.005 * peak, $"({x}, {y}): {truth.U[i]}");
        }

        Assert.True(outside > 500, "a part of the picture is undisturbed");
    }

    [Fact]
    public void Of_OtherFlow_IsNothing() =>
        Assert.Null(JetOutline.Of(new SyntheticScene(Recipe with { Flow = new FlowRecipe.Shift(1, 0) }, CancellationToken.None)));
}
