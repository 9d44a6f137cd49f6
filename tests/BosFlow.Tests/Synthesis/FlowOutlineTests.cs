using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class FlowOutlineTests
{
    private static readonly SceneRecipe Recipe = new()
    {
        Width = 320,
        Height = 240,
        FrameCount = 2,
        FlowOffCount = 1,
        Flow = new FlowRecipe.Jet(150, 250, 75, 2.6e-3, 0.06, 573),
        Speckle = new SpeckleSettings { DotsPerPixel = 1e-4 },
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 3.45e-6 },
    };

    public static TheoryData<string, FlowRecipe> Flows => new()
    {
        { "jet", Recipe.Flow },
        { "jet of constant width", new FlowRecipe.Jet(150, 250, 75, 3e-3, 0, 573) },
        { "stripe", new FlowRecipe.SlabStripe(170, 100, 30, 2.5e-3, 573, 10e-3) },
        { "blob", new FlowRecipe.SlabBlob(170, 100, 3e-3, 573, 10e-3) },
        { "shock", new FlowRecipe.Shock(2, 10, 0, 170, 100, 2e-3, 10e-3) },
    };

    [Theory]
    [MemberData(nameof(Flows))]
    public void Of_Flow_HoldsEveryDisplacementThatMatters(string kind, FlowRecipe flow)
    {
        var scene = new SyntheticScene(Recipe with { Flow = flow }, CancellationToken.None);
        PixelPolygon outline = FlowOutline.Of(scene)!;
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
            Assert.True(Math.Abs(truth.U[i]) < 0.005 * peak && Math.Abs(truth.V[i]) < 0.005 * peak, $"{kind} ({x}, {y}): {truth.U[i]}");
        }

        Assert.True(outside > 500, "a part of the picture is undisturbed");
    }

    [Fact]
    public void Of_FlowThatFillsThePicture_IsNothing()
    {
        Assert.Null(FlowOutline.Of(new SyntheticScene(Recipe with { Flow = new FlowRecipe.Shift(1, 0) }, CancellationToken.None)));
        Assert.Null(FlowOutline.Of(new SyntheticScene(Recipe with { Flow = new FlowRecipe.SlabGradient(5, 30, 0.1) }, CancellationToken.None)));
    }

    [Fact]
    public void Of_CutNearACorner_HasNoCornerTwice()
    {
        PixelPolygon outline = FlowOutline.Of(new SyntheticScene(Recipe with { Flow = new FlowRecipe.SlabStripe(160, 120, 36.9, 2.5e-3, 573, 10e-3) }, CancellationToken.None))!;
        for (int i = 0; i < outline.Corners.Count; i++)
            Assert.NotEqual(outline.Corners[i], outline.Corners[(i + 1) % outline.Corners.Count]);
    }

    [Theory]
    [InlineData("stripe", 2)]
    [InlineData("shock", 1)]
    [InlineData("blob", 0)]
    public void AmbientOf_Flow_HasTheAmbientDensityAllOver(string kind, int sides)
    {
        FlowRecipe flow = (FlowRecipe)Flows.Single(row => (string)row[0] == kind)[1];
        var scene = new SyntheticScene(Recipe with { Flow = flow }, CancellationToken.None);
        IReadOnlyList<PixelPolygon> regions = FlowOutline.AmbientOf(scene);
        Assert.Equal(sides, regions.Count);
        SceneTruth truth = scene.TruthAt(new NodeGrid(2, 2, 4, 79, 59), CancellationToken.None);
        double ambient = OpticalScaling.AmbientDensityKgM3(Recipe.Gas);
        int within = 0;
        for (int i = 0; i < truth.U.Length; i++)
        {
            if (!regions.Any(region => region.Contains(2 + (4 * (i % 79)), 2 + (4 * (i / 79)))))
                continue;
            within++;
            Assert.Equal(ambient, truth.DensityKgM3![i], 0.002 * ambient);
        }

        Assert.True(sides == 0 || within > 200, "a good part of the picture is calm");
    }
}
