using BosFlow.Camera;
using BosFlow.Optics;
using BosFlow.Planning;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Planning;

/// <summary>Deflections of the expected flows against published numbers, closed forms and the exact scenes.</summary>
public sealed class ExpectedFlowTests
{
    private static PlanRequest Laboratory => new() { Rig = ReferenceRigs.Laboratory, Camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1080 } };

    /// <summary>Peak deflections of round hot plumes at sea level, K = 2.2564e-4 m3/kg: 1.52035 |delta0| worked by hand.</summary>
    [Theory]
    [InlineData(400, 1.17e-4)]
    [InlineData(600, 2.18e-4)]
    [InlineData(900, 2.86e-4)]
    public void Plume_AtSeaLevel_DeflectsAsWorked(double kelvin, double expected)
    {
        FlowPrediction flow = Flow(new ExpectedFlow.Plume(12e-3, kelvin, null), new GasSettings { GladstoneDaleM3PerKg = 2.2564e-4 });

        Assert.Equal(expected, flow.DeflectionRadians, 0.006 * expected);
    }

    [Fact]
    public void Plume_InAScene_MovesDotsAsPlanned()
    {
        FlowPrediction flow = Flow(new ExpectedFlow.Plume(12e-3, 600, null), new GasSettings());
        var scene = new SyntheticScene(
            new SceneRecipe { Width = 900, Height = 64, FrameCount = 1, Rig = ReferenceRigs.Laboratory, Flow = new FlowRecipe.Jet(449.5, 31.5, 90, 12e-3, 0, 600) }, CancellationToken.None);

        SceneTruth truth = scene.TruthAt(new BosFlow.Displacement.NodeGrid(0, 32, 4, 225, 1), CancellationToken.None);

        // Ray-traced with perspective and finite distances; the plan takes parallel rays.
        Assert.Equal(truth.U.Max(), flow.DisplacementPixels, 0.01 * flow.DisplacementPixels);
    }

    /// <summary>Plate of 80 C in air of 20 C, 0.1 m up, 0.2 m wide: 1.365e-3 rad at the wall by Ostrach's solution with -theta'(0) = 0.5021, K = 2.2616e-4 m3/kg, worked by hand; the largest lies off the wall.</summary>
    [Fact]
    public void Plate_OfTheWorkedExample_DeflectsAsWorked()
    {
        var gas = new GasSettings { AmbientTemperatureKelvin = 293.15, GladstoneDaleM3PerKg = 2.2616e-4 };
        FlowPrediction flow = Flow(new ExpectedFlow.HeatedPlate(353.15, 0.1, 0.2), gas);

        Assert.InRange(flow.DeflectionRadians, 1.365e-3, 1.1 * 1.365e-3);
        Assert.Equal(1.365e-3, PlateOptics.WallDeflection(new ExpectedFlow.HeatedPlate(353.15, 0.1, 0.2), gas), 5e-6);
    }

    /// <summary>F''(0) = 0.6774 and -theta'(0) = 0.5021 for Pr = 0.71; published for 0.72: 0.676 and 0.5046 (S. Ostrach 1953, from memory).</summary>
    [Fact]
    public void NaturalConvection_OfAir_HasThePublishedWallValues()
    {
        Assert.Equal(0.6774, NaturalConvectionLayer.WallShear, 1e-4);
        Assert.Equal(-0.5021, NaturalConvectionLayer.WallSlope, 1e-4);
        Assert.Equal(1, NaturalConvectionLayer.Temperature(0), 1e-12);
        Assert.Equal(0, NaturalConvectionLayer.Temperature(NaturalConvectionLayer.End - 1e-9), 1e-4);
    }

    /// <summary>Mach 2, wedge of 10 degrees: density times 1.4584 (NACA Report 1135).</summary>
    [Fact]
    public void Shock_OfTheTables_DeflectsAsItsJump()
    {
        FlowPrediction flow = Flow(new ExpectedFlow.Shock(2, 10, 0.1, 2e-3), new GasSettings { GladstoneDaleM3PerKg = 2.26e-4, AmbientDensityKgM3 = 1.2 });

        Assert.Equal(1.2 * 1.4584, flow.Density!.Value, 1e-3);
        Assert.Equal(2.26e-4 * 1.2 * 0.4584 / 2e-3 * 0.1, flow.DeflectionRadians, 2e-3 * flow.DeflectionRadians);
    }

    [Fact]
    public void WeakLens_AtItsEdge_DeflectsByRadiusOverFocalLength() =>
        Assert.Equal(25e-3 / 20, Flow(new ExpectedFlow.WeakLens(20, 50e-3), new GasSettings()).DeflectionRadians, 1e-15);

    /// <summary>Helium against air at 15 C and 101325 Pa: n - 1 = 3.3e-5 and 2.78e-4 (tables of refractive indices, from memory).</summary>
    [Fact]
    public void GasCell_OfHelium_DeflectsAsTheDifferenceOfIndices()
    {
        FlowPrediction flow = Flow(new ExpectedFlow.GasCell("helium", 0.05, 5e-3), new GasSettings());

        Assert.Equal((2.78e-4 - 0.33e-4) / 5e-3 * 0.05, flow.DeflectionRadians, 0.01 * flow.DeflectionRadians);
    }

    /// <summary>Far from the nozzle the mass fraction of jet gas is 5 d (rho_J / rho_0)^0.5 / x and the half-width 0.11 x (Chen and Rodi 1980; Thring and Newby 1953; from memory).</summary>
    [Fact]
    public void Jet_FarFromTheNozzle_DecaysAndSpreadsAsPublished()
    {
        var jet = new JetDevelopment(10e-3, 1.0 / 3, 0.4);

        Assert.Equal(5 * 10e-3 * Math.Sqrt(1.0 / 3) / 0.4, jet.AxisShare, 1e-3 * jet.AxisShare);
        Assert.Equal(0.11 * 0.4, jet.HalfWidthMetres, 1e-3);
        Assert.Equal(0.5, jet.ShareAt(jet.HalfWidthMetres) / jet.AxisShare, 1e-9);
    }

    [Fact]
    public void Jet_AlongItsAxis_HasNoJump()
    {
        double before = double.NaN;
        for (double x = 0; x < 0.06; x += 4e-4)
        {
            double deflection = Flow(new ExpectedFlow.Jet(10e-3, 900, x, null, null), new GasSettings()).DeflectionRadians;
            Assert.False(Math.Abs((deflection / before) - 1) > 0.12, $"jump at {x}");
            before = deflection;
        }
    }

    [Fact]
    public void Jet_AtItsNozzle_HasTheNozzlesTemperature()
    {
        FlowPrediction flow = Flow(new ExpectedFlow.Jet(10e-3, 900, 0, null, null), new GasSettings());

        Assert.Equal(900, flow.Temperature!.Value, 1e-6);
        Assert.Equal(1.225 * 288.15 / 900, flow.Density!.Value, 1e-3);
    }

    [Fact]
    public void Response_OfAWidePlume_IsOne_OfANarrowOne_FallsWithTheWindow()
    {
        double Response(double radius, int window) => Planner.Judge(Laboratory with
        {
            Flow = new ExpectedFlow.Plume(radius, 600, null),
            Displacement = new BosFlow.Displacement.DisplacementSettings { WindowPixels = window, SpacingPixels = window / 2 },
        }).Flow!.Response;

        Assert.InRange(Response(30e-3, 32), 0.998, 1.001);
        Assert.True(Response(2e-3, 32) > Response(2e-3, 48) && Response(2e-3, 48) > Response(2e-3, 64));
        Assert.InRange(Response(0.02e-3, 32), 0, 0.05);
    }

    private static FlowPrediction Flow(ExpectedFlow flow, GasSettings gas) => Planner.Judge(Laboratory with { Flow = flow, Gas = gas }).Flow!;
}
