using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>The whole pipeline from footage to the density ratio of an oblique shock, against the relations of NACA Report 1135.</summary>
public static class ObliqueShockStudy
{
    private const string Study = "oblique shock";
    private const double LargestError = 3;
    private const double Mach = 2;
    private const double WedgeDegrees = 10;
    private const double ThicknessMetres = 6e-3;

    // At twice the thickness the slope of the jump is down to 0.13 % of its largest.
    private const double CalmFrom = 2 * ThicknessMetres;

    /// <summary>Carries the study out.</summary>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var flow = new FlowRecipe.Shock(Mach, WedgeDegrees, 0, 420, 250, ThicknessMetres, 30e-3);
        SceneRecipe recipe = Recipe(flow);
        var scene = new SyntheticScene(recipe, cancellationToken);
        var asked = new FlowSettings { Shape = FlowShape.Planar, AmbientRegions = FlowOutline.AmbientOf(scene), Temperature = TemperatureModel.None };
        DensityResult density = SceneRun.Measure(scene, new SceneFootage(scene), MotionModel.None, settings, cancellationToken, asked).Summary!.Density!;
        SceneTruth truth = scene.TruthAt(density.Grid, cancellationToken);
        double calm = CalmFrom / scene.View!.FlowMetresPerPixel;
        ErrorStatistics behind = FieldComparison.Of(density, "density", truth.DensityKgM3!, (x, y) => flow.SideBehind().Depth((x, y)) > calm);
        ObliqueShock shock = flow.Behind();
        double before = OpticalScaling.AmbientDensityKgM3(recipe.Gas);
        double ratio = shock.DensityRatio + (behind.Bias / before);
        Figure[] figures =
        [
            new(Study, "density behind over density before", ratio, "1", null, null, FormattableString.Invariant($"relations: {shock.DensityRatio:F4}")),
            new(Study, "error of the density ratio", 100 * Math.Abs((ratio / shock.DensityRatio) - 1), "%", null, LargestError),
            new(Study, "error of the jump of the density", 100 * Math.Abs(((ratio - 1) / (shock.DensityRatio - 1)) - 1), "%", null, null),
            new(Study, "values behind the shock", behind.Count, "1", null, null),
        ];
        string description = FormattableString.Invariant(
            $"A wedge of {WedgeDegrees} degrees at Mach {Mach}, oncoming air at {recipe.Gas.AmbientPressurePascal} Pa and {recipe.Gas.AmbientTemperatureKelvin} K (gas at rest at 1013 hPa and 20 degC, expanded), 30 mm long along the line of sight; the jump is {ThicknessMetres * 1e3} mm thick; the laboratory's camera, {recipe.Width} x {recipe.Height} px, noise {recipe.Sensor.NoisePercent} %, 2 flow-off and 2 flow frames. Known density: where the flow is calm before the shock. The figure is the mean where it is calm behind it.");
        return new StudyResult("Oblique shock", description, figures, []);
    }

    private static SceneRecipe Recipe(FlowRecipe flow) => new()
    {
        Width = 720,
        Height = 480,
        FrameCount = 4,
        FlowOffCount = 2,
        Flow = flow,
        Rig = ReferenceRigs.Laboratory,
        Gas = new GasSettings { AmbientPressurePascal = 12950, AmbientTemperatureKelvin = 162.85 },
        Speckle = new SpeckleSettings { DotsPerPixel = 0.05, MarginPixels = 16, Seed = 81 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = 82,
    };
}
