using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class DensityTruthTests
{
    // Molar gas constant, J/(mol K), exact since 2019 (SI brochure, 9th ed.); molar mass of air, kg/mol, ISO 2533.
    private const double GasConstant = 8.31446261815324;
    private const double MolarMass = 28.9644e-3;

    [Theory]
    [InlineData(600)]
    [InlineData(900)]
    public void TruthAt_PlumeAxis_HasTheDensityOfTheIdealGas(double temperature)
    {
        SceneRecipe recipe = PlumeScenes.Laboratory(temperature, 1, 1, 5);
        SceneTruth truth = Truth(recipe, (recipe.Width - 1) / 2.0, (recipe.Height - 1) / 2.0);
        Assert.Equal(101325 * MolarMass / (GasConstant * temperature), truth.DensityKgM3![0], 1e-4);
        Assert.Equal(temperature, truth.TemperatureKelvin![0], 1e-3 * temperature);
    }

    [Fact]
    public void TruthAt_OneHalfWidthFromTheAxis_HasLostTheDeficitToOneE()
    {
        SceneRecipe recipe = PlumeScenes.Onboard(900, 1, 1, 5) with { Flow = new FlowRecipe.Jet(500, 100, 90, 30e-3, 0, 900) };
        double pixels = 30e-3 / new SyntheticScene(recipe, CancellationToken.None).View!.FlowMetresPerPixel;
        double ambient = OpticalScaling.AmbientDensityKgM3(recipe.Gas);
        double axis = Truth(recipe, 500, 70).DensityKgM3![0];
        double there = Truth(recipe, 500 + pixels, 30).DensityKgM3![0];
        Assert.Equal((ambient - axis) / Math.E, ambient - there, 1e-5);
        Assert.Equal(ambient, Truth(recipe, 500 + (6 * pixels), 30).DensityKgM3![0], 1e-6);
        Assert.Equal(recipe.Gas.AmbientTemperatureKelvin, Truth(recipe, 500 + (6 * pixels), 30).TemperatureKelvin![0], 1e-3);
    }

    [Fact]
    public void TruthAt_SlabInTheDisplacedPlace_GradientAgreesWithTheDisplacement()
    {
        // Two routes to the density gradient: finite differences of the true density where the ray really crosses the flow, and the thin formula of the displacement.
        SceneRecipe recipe = PlumeScenes.Laboratory(600, 1, 1, 5) with { Flow = new FlowRecipe.SlabBlob(560, 190, 10e-3, 600, 0.04) };
        var scene = new SyntheticScene(recipe with { Rig = recipe.Rig! with { PathLengthMetres = 0.04 } }, CancellationToken.None);
        double step = 4;
        foreach ((double x, double y) in ((double, double)[])[(640, 190), (500, 260), (560, 60)])
        {
            SceneTruth node = Truth(recipe, x, y);
            // The dot that the reference shows at the node is seen at x + u: there its ray crosses the flow plane.
            double seenX = x + node.U[0];
            double seenY = y + node.V[0];
            double gradient = (Truth(recipe, seenX + step, seenY).DensityKgM3![0] - Truth(recipe, seenX - step, seenY).DensityKgM3![0]) / (2 * step * scene.View!.FlowMetresPerPixel);
            Assert.Equal(gradient, scene.Scale!.DensityGradientPerPixel!.Value * node.U[0], 0.2);
        }
    }

    [Fact]
    public void TruthAt_Shock_HasNoTemperatureAtAmbientPressure()
    {
        SceneRecipe recipe = PlumeScenes.Laboratory(600, 1, 1, 5) with
        {
            Flow = new FlowRecipe.Shock(2, 10, 0, 560, 190, 6e-3, 0.02),
            Gas = new GasSettings { AmbientDensityKgM3 = 0.4 },
        };
        SceneTruth before = Truth(recipe, 100, 190);
        SceneTruth behind = Truth(recipe, 1000, 190);
        Assert.Null(before.TemperatureKelvin);
        Assert.Equal(0.4, before.DensityKgM3![0], 1e-6);
        Assert.Equal(1.4584, behind.DensityKgM3![0] / before.DensityKgM3[0], 1e-4);
    }

    [Fact]
    public void TruthAt_Lens_HasNoDensity() => Assert.Null(Truth(PlumeScenes.Laboratory(600, 1, 1, 5) with { Flow = new FlowRecipe.Lens(500) }, 5, 5).DensityKgM3);

    [Fact]
    public void ReferenceRigs_ScalesAndSensitivity_AreThoseOfTheWorkedExamples()
    {
        // Worked from the thin-lens equations by an independent script: footprints in the flow plane and px for a deflection.
        OpticalScale bench = OpticalScaling.From(ReferenceRigs.Laboratory, new GasSettings());
        Assert.Equal(0.06728e-3, bench.FlowMetresPerPixel, 1e-8);
        Assert.Equal(0.7432, -1e-4 / bench.DeflectionPerPixel, 1e-4);
        OpticalScale board = OpticalScaling.From(ReferenceRigs.Onboard, new GasSettings());
        Assert.Equal(0.30907e-3, board.FlowMetresPerPixel, 1e-8);
        Assert.Equal(0.22209, -2.86e-4 / board.DeflectionPerPixel, 1e-5);
    }

    private static SceneTruth Truth(SceneRecipe recipe, double x, double y) => Field(recipe).TruthAt(new NodeGrid(x, y, 8, 1, 1), CancellationToken.None);

    // A few dots only: the truth does not depend on the pattern.
    private static SyntheticScene Field(SceneRecipe recipe) => new(recipe with { Speckle = recipe.Speckle with { DotsPerPixel = 1e-5 } }, CancellationToken.None);
}
