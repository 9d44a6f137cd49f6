using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class SlabTests
{
    private const double Coefficient = 2.2634e-4;
    private const double Length = 0.1;

    private static readonly ViewGeometry View = new(1.0, 1.0, 0.1346e-3, 319.5, 239.5, 1.000277);
    private static readonly SceneGas Air = new(Coefficient, 1.204, 293.15);

    [Theory]
    [InlineData(0.5)]
    [InlineData(5)]
    [InlineData(50)]
    public void LinearSlab_OnTheAxis_DeflectsByGradientTimesLength(double gradient)
    {
        // eps = g W / n0 (paraxial ray optics, e.g. Settles, Schlieren and Shadowgraph Techniques, Springer 2001, chapter 2); required within 0.5 %.
        double expected = gradient * Coefficient * Length / View.AmbientIndex;
        TracedRay ray = Tracer(new LinearDensity(gradient, 0)).Trace(View.CentreX, View.CentreY);
        Assert.Equal(expected, ray.IndexGradientPathX / View.AmbientIndex, 1e-5 * expected);
        Assert.Equal(0, ray.IndexGradientPathY, 1e-18);
        // Towards the denser side; with Z_D from the middle of the slab the ray's landing place is Z_D eps to first order.
        Assert.Equal(View.FlowToBackgroundMetres * expected, ray.X, 1e-4 * expected);
    }

    [Fact]
    public void LinearSlab_InsideRay_IsTheParabolaOfTheTheory()
    {
        // x'' = g / n: after the length W it has moved by g W^2 / (2 n0) and leaves with the slope g W / n0; from the far face on it is straight.
        const double Gradient = 50;
        double slope = Gradient * Coefficient * Length / View.AmbientIndex;
        double landing = (slope * Length / 2) + (slope * (View.FlowToBackgroundMetres - (Length / 2)));
        Assert.Equal(landing, Tracer(new LinearDensity(Gradient, 0)).Trace(View.CentreX, View.CentreY).X, 1e-6 * landing);
    }

    [Fact]
    public void LinearSlab_WholePicture_AgreesWithThinTheoryWithinHalfAPercent()
    {
        var field = new TracedField(View, new DensitySlab(1, Length, Coefficient, new LinearDensity(3, 4)));
        double perGradient = -View.FlowToBackgroundMetres / View.BackgroundMetresPerPixel * Coefficient * Length / View.AmbientIndex;
        foreach ((double x, double y) in ((double, double)[])[(0, 0), (319.5, 239.5), (639, 479), (100, 400)])
        {
            FlowSample sample = field.At(x, y);
            Assert.Equal(3 * perGradient, sample.U, 0.005 * Math.Abs(3 * perGradient));
            Assert.Equal(4 * perGradient, sample.V, 0.005 * Math.Abs(4 * perGradient));
        }
    }

    [Fact]
    public void LinearSlab_DenserBelow_DotsMoveUp() =>
        Assert.True(Field(new LinearDensity(0, 10)).At(100, 100).V < -0.1, "dots move away from the dense side");

    [Fact]
    public void HotBlob_Anywhere_DotsMoveTowardsItsCentre()
    {
        TracedField field = Field(new GaussianDensity(0, 0, 8e-3, Air.IndexExcess(600) / Coefficient, null));
        Assert.True(field.At(View.CentreX + 80, View.CentreY).U < -0.1);
        Assert.True(field.At(View.CentreX - 80, View.CentreY).U > 0.1);
        Assert.True(field.At(View.CentreX, View.CentreY + 80).V < -0.1);
        Assert.True(field.At(View.CentreX, View.CentreY - 80).V > 0.1);
        Assert.Equal(0, field.At(View.CentreX, View.CentreY).U, 1e-9);
    }

    [Fact]
    public void ColdBlob_Anywhere_DotsMoveAwayFromItsCentre() =>
        Assert.True(Field(new GaussianDensity(0, 0, 8e-3, Air.IndexExcess(200) / Coefficient, null)).At(View.CentreX + 80, View.CentreY).U > 0.1);

    [Fact]
    public void HotStripe_LyingFlat_MovesDotsAcrossItOnly()
    {
        TracedField field = Field(new GaussianDensity(0, 0, 8e-3, Air.IndexExcess(600) / Coefficient, 0));
        FlowSample below = field.At(View.CentreX, View.CentreY + 80);
        Assert.True(below.V < -0.1, "upwards, to the hot middle");
        Assert.Equal(0, below.U, 1e-9);
        FlowSample elsewhere = field.At(View.CentreX + 200, View.CentreY + 80);
        Assert.Equal(below.V, elsewhere.V, 0.01 * Math.Abs(below.V));
    }

    [Fact]
    public void HotStripe_Slanted_IsConstantAlongItsDirection()
    {
        var stripe = new GaussianDensity(0.002, -0.001, 5e-3, -0.6, 30);
        // 30 degrees counter-clockwise as seen: to the right and up, so y (down) falls.
        double step = 0.01;
        DensitySample here = stripe.At(0.004, 0.001);
        DensitySample there = stripe.At(0.004 + (step * Math.Cos(Math.PI / 6)), 0.001 - (step * 0.5));
        Assert.Equal(here.Excess, there.Excess, 1e-12);
        Assert.Equal(here.GradientX, there.GradientX, 1e-9);
    }

    [Fact]
    public void Profiles_Gradients_AreThoseOfTheirDensity()
    {
        IDensityProfile[] profiles =
        [
            new LinearDensity(3, -2), new GaussianDensity(0.001, 0.002, 5e-3, -0.6, null), new GaussianDensity(0.001, 0.002, 5e-3, -0.6, 37),
            new ShockDensity(0.001, -0.001, 0.6, 0.8, 0.3, 4e-3),
        ];
        const double Step = 1e-7;
        foreach (IDensityProfile profile in profiles)
        {
            foreach ((double x, double y) in ((double, double)[])[(0.0013, 0.0007), (-0.004, 0.003)])
            {
                DensitySample sample = profile.At(x, y);
                Assert.Equal((profile.At(x + Step, y).Excess - profile.At(x - Step, y).Excess) / (2 * Step), sample.GradientX, 1e-5);
                Assert.Equal((profile.At(x, y + Step).Excess - profile.At(x, y - Step).Excess) / (2 * Step), sample.GradientY, 1e-5);
            }
        }
    }

    [Fact]
    public void UniformSlab_ObliqueRay_IsShiftedBySnellsLawAndNotTurned()
    {
        // A denser slab: the ray is steeper inside, sin(inside) = n0 sin(outside) / n, and goes on parallel to itself.
        double excess = 1e-3;
        var slab = new DensitySlab(1, Length, 1, new GaussianDensity(0, 0, 1e9, excess, null));
        TracedRay ray = new RayTracer(View, slab).Trace(View.CentreX + 300, View.CentreY);
        (double straight, _) = View.OnBackground(View.CentreX + 300, View.CentreY);
        double outside = Math.Atan(straight / View.BackgroundDistanceMetres);
        double inside = Math.Asin(View.AmbientIndex * Math.Sin(outside) / (View.AmbientIndex + excess));
        Assert.Equal(straight - (Length * (Math.Tan(outside) - Math.Tan(inside))), ray.X, 1e-12);
        Assert.Equal(0, ray.IndexGradientPathX, 1e-15);
    }

    [Fact]
    public void Shock_Jump_IsWhollyBetweenItsTwoSides()
    {
        var shock = new ShockDensity(0, 0, 0, 1, 0.25, 2e-3);
        Assert.Equal(0, shock.At(0, -20e-3).Excess, 1e-12);
        Assert.Equal(0.125, shock.At(0.3, 0).Excess, 1e-12);
        Assert.Equal(0.25, shock.At(0, 20e-3).Excess, 1e-12);
        Assert.Equal(0.25 / 2e-3, shock.At(0, 0).GradientY, 1e-9);
    }

    [Fact]
    public void Shock_WedgeBelowAFlowToTheRight_RisesToTheRightWithItsDenseSideBelow()
    {
        var recipe = new FlowRecipe.Shock(2, 10, 0, View.CentreX, View.CentreY, 4e-3, Length);
        IIndexField medium = recipe.Medium(View, Air);
        double pixel = View.FlowMetresPerPixel;
        // 39.3 degrees: 100 px to the right the shock is 82 px higher.
        double rise = 100 * Math.Tan(double.DegreesToRadians(39.314)) * pixel;
        double jump = Coefficient * 1.204 * 0.4584;
        Assert.Equal(jump / 2, medium.At(100 * pixel, -rise, 1).Excess, 1e-4 * jump);
        Assert.Equal(jump, medium.At(200 * pixel, 0, 1).Excess, 1e-3 * jump);
        Assert.Equal(0, medium.At(-200 * pixel, 0, 1).Excess, 1e-3 * jump);
        // Dots move away from the dense side: up and to the left.
        FlowSample sample = new TracedField(View, medium).At(View.CentreX, View.CentreY);
        Assert.True(sample.U < -0.1 && sample.V < -0.1);
    }

    [Fact]
    public void Shock_WedgeAbove_IsTheMirrorImage()
    {
        IIndexField below = new FlowRecipe.Shock(2, 10, 0, View.CentreX, View.CentreY, 4e-3, Length).Medium(View, Air);
        IIndexField above = new FlowRecipe.Shock(2, -10, 0, View.CentreX, View.CentreY, 4e-3, Length).Medium(View, Air);
        Assert.Equal(below.At(0.003, -0.001, 1).Excess, above.At(0.003, 0.001, 1).Excess, 1e-15);
    }

    [Fact]
    public void Shock_PathIntegralAcross_IsTheJump()
    {
        // Integral of eps over the way across = jump * K W / n0: what any integration of the measured field must give back.
        var recipe = new FlowRecipe.Shock(2, 10, -39.314, View.CentreX, View.CentreY, 4e-3, 0.05);
        var tracer = new RayTracer(View with { LensToFlowMetres = 1000 }, recipe.Medium(View with { LensToFlowMetres = 1000 }, Air));
        double pixel = (View with { LensToFlowMetres = 1000 }).FlowMetresPerPixel;
        double sum = 0;
        for (int i = -400; i <= 400; i++)
            sum += tracer.Trace(View.CentreX, View.CentreY + (0.5 * i)).IndexGradientPathY * 0.5 * pixel;
        double expected = Coefficient * 1.204 * (ObliqueShock.Of(2, 10).DensityRatio - 1) * 0.05;
        Assert.Equal(expected, sum, 1e-3 * expected);
    }

    [Fact]
    public void Trace_HalvedStep_ChangesNothingThatMatters()
    {
        RayTracer tracer = Tracer(new GaussianDensity(0, 0, 5e-3, -0.7, null));
        TracedRay coarse = tracer.Trace(380, 200);
        TracedRay fine = tracer.Trace(380, 200, 128);
        Assert.Equal(fine.IndexGradientPathX, coarse.IndexGradientPathX, 1e-9 * Math.Abs(fine.IndexGradientPathX));
        Assert.Equal(fine.X, coarse.X, 1e-14);
    }

    [Fact]
    public void Recipes_OutOfRange_AreRefusedInWords()
    {
        (FlowRecipe Flow, string Word)[] wrong =
        [
            (new FlowRecipe.SlabGradient(500, 0, 0.1), "leave the density above 0"),
            (new FlowRecipe.SlabStripe(0, 0, 0, 0, 600, 0.1), "half-width above 0"),
            (new FlowRecipe.SlabBlob(0, 0, 5e-3, -3, 0.1), "temperature above 0 K"),
            (new FlowRecipe.SlabBlob(0, 0, 5e-3, 600, 2.5), "less than 2000 mm"),
            (new FlowRecipe.Shock(2, 10, 0, 0, 0, 0, 0.1), "thickness must be above 0"),
            (new FlowRecipe.Shock(2, 40, 0, 0, 0, 1e-3, 0.1), "detaches"),
        ];
        foreach ((FlowRecipe flow, string word) in wrong)
            Assert.Contains(word, Assert.Throws<ConfigurationException>(() => flow.Medium(View, Air)).Message, StringComparison.Ordinal);
    }

    private static TracedField Field(IDensityProfile profile) => new(View, new DensitySlab(1, Length, Coefficient, profile));

    private static RayTracer Tracer(IDensityProfile profile) => new(View, new DensitySlab(1, Length, Coefficient, profile));
}
