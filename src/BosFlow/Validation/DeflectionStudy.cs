using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Deflection angles of two flows whose theory has no free number: a slab of linear density and a weak lens.</summary>
/// <remarks>Slab: eps = g K W / n0 everywhere. Lens: eps = -X / F, X the place in the flow plane (E. Hecht, Optics, chapter 5).</remarks>
public static class DeflectionStudy
{
    private const string Study = "deflection";
    private const double LargestError = 0.5;
    private const double GradientKgM4 = 10;
    private const double DirectionDegrees = 30;
    private const double LengthMetres = 0.1;
    private const double FocalLengthMetres = 50;

    /// <summary>Carries the study out.</summary>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Figure[] figures =
        [
            new(Study, "slab of linear density: error of the deflection", Math.Abs(100 * (Slab(settings, cancellationToken) - 1)), "%", null, LargestError),
            new(Study, "weak lens: error of the deflection", Math.Abs(100 * (Lens(settings, cancellationToken) - 1)), "%", null, LargestError),
        ];
        string description = FormattableString.Invariant(
            $"The laboratory's camera; noise 1 %, one flow-off and one flow picture. Slab: {GradientKgM4} kg/m4 over {LengthMetres * 1e3} mm, ray-traced; mean over all vectors along the gradient against gradient times length. Lens: focal length {FocalLengthMetres} m; slope of the measured deflection on the one of the lens formula.");
        return new StudyResult("Deflection by theory", description, figures, []);
    }

    /// <summary>Measured over theoretical deflection.</summary>
    private static double Slab(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        (SyntheticScene scene, RunSummary run) = Measure(new FlowRecipe.SlabGradient(GradientKgM4, DirectionDegrees, LengthMetres), settings, cancellationToken);
        (double sine, double cosine) = Math.SinCos(double.DegreesToRadians(DirectionDegrees));
        double along = (Field(run, "deflection_x").Where(float.IsFinite).Average() * cosine) - (Field(run, "deflection_y").Where(float.IsFinite).Average() * sine);
        return along * scene.View!.AmbientIndex / (GradientKgM4 * LengthMetres * scene.Scale!.GladstoneDaleM3PerKg);
    }

    /// <summary>Slope of measured on theoretical deflection.</summary>
    private static double Lens(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        (SyntheticScene scene, RunSummary run) = Measure(new FlowRecipe.Lens(FocalLengthMetres), settings, cancellationToken);
        NodeGrid grid = run.Statistics.Grid;
        float[] theory = new float[grid.Count];
        for (int node = 0; node < theory.Length; node++)
        {
            // The ray that meets the dot of the node crosses the flow where the dot is seen, not where it is at rest.
            (double x, _) = scene.View!.OnFlowPlane(grid.X(node % grid.Columns) + run.Statistics.MeanU[node], 0);
            theory[node] = (float)(-x / FocalLengthMetres);
        }

        return LineFit.Of(theory, Field(run, "deflection_x")).Slope;
    }

    private static float[] Field(RunSummary run, string name) => run.DerivedFields.First(field => field.Name == name).Values;

    private static (SyntheticScene Scene, RunSummary Run) Measure(FlowRecipe flow, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var scene = new SyntheticScene(
            new SceneRecipe
            {
                Width = 480,
                Height = 384,
                FrameCount = 2,
                FlowOffCount = 1,
                Flow = flow,
                Rig = ReferenceRigs.Laboratory,
                Speckle = new SpeckleSettings { DotsPerPixel = 0.05, MarginPixels = 16, Seed = 71 },
                Sensor = new SensorSettings { NoisePercent = 1 },
                Seed = 72,
            },
            cancellationToken);
        return (scene, SceneRun.Measure(scene, new SceneFootage(scene), MotionModel.None, settings, cancellationToken).Summary!);
    }
}
