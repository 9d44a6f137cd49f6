using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>The whole pipeline on a ray-traced hot jet filmed by a shaking camera: path-integrated density gradient against the truth.</summary>
public static class HotJetStudy
{
    private const string Study = "hot jet";
    private const string SharedErrors = "the averaging over the window is not in the sigma";
    private const double LargestPercentOfPeak = 3;
    private const double SmallestSlope = 0.97;
    private const double LargestSlope = 1.03;

    /// <summary>The scene: a leaning jet, so that both components carry a signal.</summary>
    /// <param name="frames">Number of frames with flow.</param>
    public static SceneRecipe Recipe(int frames) => new()
    {
        Width = 800,
        Height = 512,
        FrameCount = 4 + frames,
        FlowOffCount = 4,
        Flow = new FlowRecipe.Jet(380, 540, 70, 7e-3, 0.1, 573.15),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 3.45e-6, FNumber = 11 },
        Shake = new ShakeSettings { ShiftPixels = 4, RotationDegrees = 0.05, ScalePercent = 0.02 },
        Speckle = new SpeckleSettings { Seed = 31, DotsPerPixel = 0.05 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Seed = 32,
    };

    /// <summary>Carries the study out.</summary>
    /// <param name="frames">Number of frames with flow, at least 2.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(int frames, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var scene = new SyntheticScene(Recipe(frames), cancellationToken);
        MemoryRunStore store = SceneRun.Measure(scene, new SceneFootage(scene), MotionModel.Similarity, settings, cancellationToken);
        TruthComparison mean = TruthComparison.Of(scene, store.Summary!, cancellationToken);
        (ComponentComparison x, ComponentComparison y) = SingleFrame(scene, store.ReadFrame(scene.Recipe.FlowOffCount).Field, cancellationToken);
        const string One = "single frame";
        string all = FormattableString.Invariant($"mean of {frames} frames");
        List<Figure> figures = [.. Figures(One, "x", x), .. Figures(One, "y", y), .. Figures(all, "x", mean.DensityGradientPathX!), .. Figures(all, "y", mean.DensityGradientPathY!)];
        figures.Add(new Figure(Study, $"{all}: RMS error of u", mean.U.RmsError, "px", null, null));
        figures.Add(new Figure(Study, $"{all}: RMS error of v", mean.V.RmsError, "px", null, null));
        figures.Add(new Figure(Study, $"{all}: share of errors of u within 1 sigma", mean.U.CoverageOneSigma, "1", null, null, SharedErrors));
        figures.Add(new Figure(Study, $"{all}: share of errors of u within 1.96 sigma", mean.U.Coverage95, "1", null, null, SharedErrors));
        string description = FormattableString.Invariant(
            $"A jet of 300 degC, 7 mm half-width at the nozzle, leaning by 20 degrees, ray-traced in three dimensions; {scene.Recipe.Width} x {scene.Recipe.Height} px, 8 bit, noise 1 %, a camera that shakes by up to 4 px and 0.05 degrees; 4 flow-off and {frames} flow frames; {settings.WindowPixels} px windows every {settings.SpacingPixels} px; path integrals of the density gradient, {mean.U.Count} nodes. The sigma of the mean covers the noise of frames and reference and the engine's bias, not the averaging over the window. Peak {mean.DensityGradientPathX!.Peak:F3} kg m-3, {mean.U.Peak:F3} px.");
        return new StudyResult("Hot jet", description, figures, []);
    }

    private static (ComponentComparison X, ComponentComparison Y) SingleFrame(SyntheticScene scene, VectorField field, CancellationToken cancellationToken)
    {
        SceneTruth truth = scene.TruthAt(field.Grid, cancellationToken);
        double factor = scene.Scale!.DensityGradientPathPerPixel;
        float[] Scaled(float[] values, double by) => [.. values.Select((value, i) => field.Flags[i] == VectorFlags.None ? (float)(value * by) : float.NaN)];
        float[] x = truth.DensityGradientPathX!;
        float[] y = truth.DensityGradientPathY!;
        return (
            ComponentComparison.Of(Scaled(field.U, factor), Scaled(field.SigmaU, Math.Abs(factor)), x, y),
            ComponentComparison.Of(Scaled(field.V, factor), Scaled(field.SigmaV, Math.Abs(factor)), y, x));
    }

    private static IEnumerable<Figure> Figures(string what, string component, ComponentComparison comparison) =>
    [
        new(Study, $"{what}: density gradient {component}, RMS error over peak", comparison.PercentOfPeak, "%", null, LargestPercentOfPeak),
        new(Study, $"{what}: density gradient {component}, regression slope", comparison.Slope, "1", SmallestSlope, LargestSlope),
    ];
}
