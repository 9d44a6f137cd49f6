using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Vectors of scenes that are harder than even light on good dots: bad patterns, bad light, blur, steep flows.</summary>
public static class HardSceneStudy
{
    private const int Width = 512;
    private const int Height = 384;
    private const int FlowFrames = 4;
    private const double LargestRatio = 1.3;
    private const double Vignetting = 50;

    private static readonly SceneRecipe Plain = new()
    {
        Width = Width,
        Height = Height,
        FrameCount = 1 + FlowFrames,
        FlowOffCount = 1,
        Flow = new FlowRecipe.Wave(new SinusoidField(0.5, 0.4, 300, 30, 10)),
        Speckle = new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.05, MinimumGapPixels = 3, ContrastFrom = 0.3, ContrastTo = 0.5, MarginPixels = 16, Seed = 61 },
        Sensor = new SensorSettings { NoisePercent = 2 },
        Shutter = new ShutterSettings { ReadoutSeconds = 0.015 },
        Seed = 62,
    };

    /// <summary>Carries the study out for one setting of the engine.</summary>
    /// <param name="quality">Name of the setting.</param>
    /// <param name="settings">The setting.</param>
    /// <param name="cancellationToken">Stops between two pictures.</param>
    public static StudyResult Run(string quality, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        string study = $"hard scenes, {quality}";
        double plain = Error(Plain, settings, cancellationToken);
        double Ratio(SceneRecipe recipe) => Error(recipe, settings, cancellationToken) / plain;
        SpeckleSettings blurred = Plain.Speckle with { DotDiameterPixels = Plain.Speckle.DotDiameterPixels * Math.Sqrt(2), ContrastFrom = Plain.Speckle.ContrastFrom / 2, ContrastTo = Plain.Speckle.ContrastTo / 2 };
        double vignetted = Ratio(Plain with { Light = new LightSettings { VignettingPercent = Vignetting } });
        // Finer nodes resolve finer waves than a window's mean and have the noise of those (see IterationNoise); the bound is that of a window's mean.
        bool isWindowMean = 2 * settings.SpacingPixels >= settings.WindowPixels;
        double plume = Plume(settings, cancellationToken);
        DisplacementSettings whole = settings with { Windows = WindowSizing.Fixed }, adaptive = settings with { Windows = WindowSizing.Adaptive };
        double plainWhole = Error(Plain, whole, cancellationToken);
        FrontErrors OfFront(DisplacementSettings with) => Front(with, settings.WindowPixels, cancellationToken);
        FrontErrors front = OfFront(whole), sharp = OfFront(adaptive), narrow = OfFront(whole with { WindowPixels = settings.WindowPixels / 2, SpacingPixels = settings.WindowPixels / 4 });
        Figure[] figures =
        [
            new(study, "plain scene: RMS error of a component", plain, "px", null, null, "dots of 3 px that keep apart, even light"),
            new(study, "dots thrown at random, overlapping: error over that of the plain scene", Ratio(Plain with { Speckle = Plain.Speckle with { MinimumGapPixels = 0 } }), "1", null, LargestRatio),
            new(study, "tone curve of gamma 2.2: the same", Ratio(Plain with { Sensor = Plain.Sensor with { Gamma = 2.2 } }), "1", null, LargestRatio),
            new(study, "vignetting to 50 % in the corners: the same (wanted: at most 1.3)", vignetted, "1", null, null, FormattableString.Invariant($"less light over the same noise makes {LightLost():0.00} of it")),
            new(study, "vignetting to 50 % in the corners: the same over what less light makes", vignetted / LightLost(), "1", null, LargestRatio),
            new(study, "flicker of the rows by 10 %: the same", Ratio(Plain with { Light = new LightSettings { FlickerPercent = 10 } }), "1", null, LargestRatio),
            new(study, "blur that halves the gradients: error over its own Cramer-Rao bound", Error(Plain with { Speckle = blurred }, settings, cancellationToken) / Bound(blurred, settings, cancellationToken), "1", null, isWindowMean ? LargestRatio : null),
            new(study, "dots of 1.2 px: RMS error over all fractions of a pixel", SmallDots(settings, cancellationToken), "px", null, 0.03),
            new(study, "strong plume, 5 px and strain 5 %: RMS error of u", plume, "px", null, 0.015),
            new(study, "oblique front, 1.9 px over 8 px, fixed windows: slope of measured on true within one window of it", front.Slope, "1", 0.8, null),
            new(study, "oblique front, fixed windows: RMS error of a component", front.Rms, "px", null, null, "the whole picture, what the windows smear included"),
            new(study, "oblique front, fixed windows: RMS error beyond two windows of it over that of the plain scene", front.Beside / plainWhole, "1", null, LargestRatio),
            new(study, "oblique front, adaptive windows: slope", sharp.Slope, "1", 0.8, null),
            new(study, "oblique front, adaptive windows: RMS error of a component", sharp.Rms, "px", null, 0.05),
            new(study, "oblique front, adaptive windows: RMS error beyond two windows of it over that of the plain scene", sharp.Beside / plainWhole, "1", null, LargestRatio),
            new(study, "oblique front, adaptive windows: share of errors within 1 sigma, within one window of it", sharp.CoverageOneSigma, "1", null, null, FormattableString.Invariant($"fixed windows: {front.CoverageOneSigma:0.00}")),
            new(study, "oblique front, adaptive windows: share of errors within 2 sigma, within one window of it", sharp.CoverageTwoSigma, "1", null, null, FormattableString.Invariant($"fixed windows: {front.CoverageTwoSigma:0.00}")),
            new(study, "plain scene: error with adaptive windows over that with fixed ones", Error(Plain, adaptive, cancellationToken) / plainWhole, "1", null, 1.02),
            new(study, "strong plume, adaptive windows: RMS error of u", Plume(adaptive, cancellationToken), "px", null, 0.015),
            new(study, "oblique front, windows of half the side: slope", narrow.Slope, "1", 0.8, null),
            new(study, "oblique front, windows of half the side: RMS error of a component", narrow.Rms, "px", null, 0.05),
        ];
        string description = FormattableString.Invariant(
            $"{Width} x {Height} px, a wave of 0.5 and 0.4 px and 300 px, {FlowFrames} frames against one, 8 bit, noise 2 %; {settings.WindowPixels} px windows every {settings.SpacingPixels} px{(settings.Windows == WindowSizing.Adaptive ? ", adaptive where nothing else is said" : "")}. Blur: dots of 4.2 px with half the contrast. Dots of 1.2 px: 0.1 dots/px, eight shifts, noise 2 %. Plume and front: 2 % noise in the plain scene's light, the front at 56 degrees, its jump along its normal.");
        return new StudyResult($"Hard scenes, {quality}", description, figures, []);
    }

    private static double Error(SceneRecipe recipe, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var scene = new SyntheticScene(recipe, cancellationToken);
        var engine = new DisplacementEngine(scene.Render(0, cancellationToken), PixelMask.All(recipe.Width, recipe.Height), settings);
        SceneTruth truth = scene.TruthAt(engine.Grid, cancellationToken);
        var errors = new ErrorStatistics();
        for (int frame = 1; frame < recipe.FrameCount; frame++)
            FieldErrors.Add(errors, engine.Measure(scene.Render(frame, cancellationToken), PlanarMotion.Identity, cancellationToken), node => (truth.U[node], truth.V[node]));
        return errors.Rms;
    }

    private static double Bound(SpeckleSettings speckle, DisplacementSettings settings, CancellationToken cancellationToken) => CramerRaoBound.Mean(
        SpecklePattern.Draw(Width, Height, speckle), Width, Height, speckle.DotSigmaPixels, Plain.Sensor, DisplacementEngine.GridOf(Width, Height, settings), settings.WindowPixels, cancellationToken);

    private static double SmallDots(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        SpeckleSettings speckle = Plain.Speckle with { DotDiameterPixels = 1.2, DotsPerPixel = 0.1, MinimumGapPixels = 0, ContrastFrom = 0.8, ContrastTo = 1 };
        var errors = new ErrorStatistics();
        for (int i = 0; i < 8; i++)
        {
            (double u, double v) = (i / 8.0, 0.3 + (5 * i / 8.0 % 1));
            foreach (VectorField field in Measured(LinearField.Uniform(u, v), speckle, settings, 1, i, cancellationToken))
                FieldErrors.Add(errors, field, _ => (u, v));
        }

        return errors.Rms;
    }

    internal static double Plume(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var plume = new StrongPlume((Width - 1) / 2.0, 5, 0.05);
        var errors = new ErrorStatistics();
        foreach (VectorField field in Measured(plume, Plain.Speckle, settings, FlowFrames, 20, cancellationToken))
        {
            Func<int, (double U, double V)> truth = FieldErrors.Truth(field, plume);
            FieldErrors.AddU(errors, field, node => truth(node).U);
        }

        return errors.Rms;
    }

    internal static FrontErrors Front(DisplacementSettings settings, int windowPixels, CancellationToken cancellationToken) =>
        FrontErrors.Of(Width, Height, field => Measured(field, Plain.Speckle, settings, FlowFrames, 40, cancellationToken), windowPixels);

    /// <summary>Root mean square over the picture of one over the light that the corners' law leaves: what the same noise makes of less contrast.</summary>
    private static double LightLost()
    {
        double falling = (1 / Math.Sqrt(1 - (Vignetting / 100))) - 1, centreX = (Width - 1) / 2.0, centreY = (Height - 1) / 2.0, sum = 0;
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                double radius = (((x - centreX) * (x - centreX)) + ((y - centreY) * (y - centreY))) / ((centreX * centreX) + (centreY * centreY));
                sum += Math.Pow(1 + (falling * radius), 4);
            }
        }

        return Math.Sqrt(sum / (Width * Height));
    }

    private static IEnumerable<VectorField> Measured(IFlowField flow, SpeckleSettings speckle, DisplacementSettings settings, int frames, int firstFrame, CancellationToken cancellationToken)
    {
        IReadOnlyList<Dot> dots = SpecklePattern.Draw(Width, Height, speckle);
        GrayImage Picture(IFlowField? field, int frame) => SceneRenderer.Render(
            SceneRenderer.Displace(dots, field, cancellationToken), PlanarMotion.Identity, Width, Height, speckle.DotSigmaPixels, Plain.Sensor, Plain.Seed, frame, cancellationToken);
        var engine = new DisplacementEngine(Picture(null, firstFrame), PixelMask.All(Width, Height), settings);
        for (int i = 1; i <= frames; i++)
            yield return engine.Measure(Picture(flow, firstFrame + i), PlanarMotion.Identity, cancellationToken);
    }
}
