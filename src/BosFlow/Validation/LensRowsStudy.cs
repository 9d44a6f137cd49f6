using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Optics;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Statistics;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>A whole run through a lens that bends the corners by 5 % and a sensor that reads its rows while the camera shakes: what action cameras do at once, against exact truth in the ideal picture.</summary>
public static class LensRowsStudy
{
    private const string Study = "lens and rolling shutter";
    private const double LargestAddedRms = 0.01;
    private const double LargestPositionError = 0.1;
    private const double FrameRateHz = 60;
    private const double ReadoutShare = 0.6;
    private const double HighestHertz = 2 * FrameRateHz; // windows of 32 px follow no more over 480 rows
    private const int Width = 640;
    private const int Height = 480;
    private static readonly LensParameters Barrel = LensParameters.Undistorted(Width, Height, 600) with { Radial1 = -0.102 };

    /// <summary>The scene.</summary>
    /// <param name="lens">Its lens; null = an ideal one.</param>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    public static SceneRecipe Recipe(LensParameters? lens, double noisePercent) => new()
    {
        Width = Width,
        Height = Height,
        FrameCount = 14,
        FlowOffCount = 7,
        FrameRateHz = FrameRateHz,
        Flow = new FlowRecipe.Jet(320, 520, 88, 5e-3, 0.05, 573.15),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 5e-6, FNumber = 11 },
        Lens = lens,
        Vibration = new VibrationSettings { LowHertz = 1, HighHertz = HighestHertz, ShiftRmsPixels = 4, RotationRmsDegrees = 0.09, ScaleRmsPercent = 0.02 },
        Shutter = new ShutterSettings { ReadoutSeconds = ReadoutShare / FrameRateHz },
        Speckle = new SpeckleSettings { Seed = 71, DotsPerPixel = 0.05, MarginPixels = 70 },
        Sensor = new SensorSettings { NoisePercent = noisePercent },
        Seed = 72,
    };

    /// <summary>Carries the study out.</summary>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Outcome ideal = Measure(Recipe(null, 1), knowsLens: true, knowsRows: true, settings, cancellationToken);
        Outcome both = Measure(Recipe(Barrel, 1), knowsLens: true, knowsRows: true, settings, cancellationToken);
        Outcome withoutLens = Measure(Recipe(Barrel, 1), knowsLens: false, knowsRows: true, settings, cancellationToken);
        Outcome withoutRows = Measure(Recipe(Barrel, 1), knowsLens: true, knowsRows: false, settings, cancellationToken);
        double added = Math.Sqrt(Math.Max(0, (both.Frame * both.Frame) - (ideal.Frame * ideal.Frame)));
        Figure[] figures =
        [
            new(Study, "RMS error of the displacement of one frame, a component, ideal lens", ideal.Frame, "px", null, null),
            new(Study, "the same through the lens, corrected", both.Frame, "px", null, null),
            new(Study, "what the lens adds to it, in quadrature", added, "px", null, LargestAddedRms),
            new(Study, "RMS error of the mean displacement, a component, ideal lens", ideal.Mean, "px", null, null),
            new(Study, "the same through the lens, corrected", both.Mean, "px", null, LargestAddedRms),
            new(Study, "the same, lens not corrected", withoutLens.Mean, "px", null, null),
            new(Study, "displacement of one frame, lens corrected, rows taken as read at once", withoutRows.Frame, "px", null, null),
            new(Study, "error of the position of the jet, across it", both.Position, "px", null, LargestPositionError),
            new(Study, "the same, ideal lens", ideal.Position, "px", null, null),
            new(Study, "the same, lens not corrected", withoutLens.Position, "px", null, null),
        ];
        LensDistortion corner = LensDistortion.AtCorner(new LensModel(Barrel));
        return new StudyResult(
            "Lens and rolling shutter",
            FormattableString.Invariant($"A jet at {Width} x {Height} px, 8 bit, noise 1 %, 7 flow-off and 7 flow frames at {FrameRateHz} Hz, through a lens that moves the corner by {corner.Pixels:0.0} px ({100 * corner.Share:0.0} %); vibration of 4 px RMS in x and in y, 0.09 degrees and 0.02 %, evenly from 1 to {HighestHertz} Hz, rows read over {ReadoutShare * 100} % of the frame period. Each row's motion acts on the directions before the lens; fields are compared with the exact one of the ideal picture at the same place. The position is the shift along x that lays the true field on the measured mean by least squares."),
            figures,
            []);
    }

    private static Outcome Measure(SceneRecipe recipe, bool knowsLens, bool knowsRows, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        var scene = new SyntheticScene(recipe, cancellationToken);
        var registration = new RegistrationSettings { ReadoutSeconds = knowsRows ? recipe.Shutter!.ReadoutSeconds : 0 };
        registration = RowTiming.Complete(registration, [.. Enumerable.Range(0, recipe.FrameCount).Select(scene.TimeSeconds)], recipe.Height, settings.WindowPixels);
        MemoryRunStore store = SceneRun.Measure(scene, new SceneFootage(scene), registration, settings, cancellationToken, isCorrected: knowsLens);
        NodeGrid grid = store.Summary!.Statistics.Grid;
        SceneTruth truth = scene.TruthAt(grid, cancellationToken);
        double squares = 0;
        int count = 0;
        for (int frame = recipe.FlowOffCount; frame < recipe.FrameCount; frame++)
        {
            VectorField field = store.ReadFrame(frame).Field;
            for (int node = 0; node < grid.Count; node++)
            {
                if (field.Flags[node] != VectorFlags.None)
                    continue;
                squares += Math.Pow(field.U[node] - truth.U[node], 2) + Math.Pow(field.V[node] - truth.V[node], 2);
                count++;
            }
        }

        TruthComparison mean = TruthComparison.Of(scene, store.Summary, cancellationToken);
        return new Outcome(
            Math.Sqrt(squares / (2 * count)),
            Math.Sqrt(((mean.U.RmsError * mean.U.RmsError) + (mean.V.RmsError * mean.V.RmsError)) / 2),
            PositionError(scene, store.Summary.Statistics, truth, cancellationToken));
    }

    // A field that lies d from its place along x differs from the true one by d times the true one's slope; along the jet there is hardly any.
    private static double PositionError(SyntheticScene scene, FieldStatistics mean, SceneTruth truth, CancellationToken cancellationToken)
    {
        NodeGrid grid = mean.Grid;
        SceneTruth right = scene.TruthAt(grid with { OriginX = grid.OriginX + 1 }, cancellationToken);
        SceneTruth left = scene.TruthAt(grid with { OriginX = grid.OriginX - 1 }, cancellationToken);
        double squares = 0, products = 0;
        for (int node = 0; node < grid.Count; node++)
        {
            float missU = truth.U[node] - mean.MeanU[node];
            float missV = truth.V[node] - mean.MeanV[node];
            if (!float.IsFinite(missU + missV))
                continue;
            double slopeU = (right.U[node] - left.U[node]) / 2;
            double slopeV = (right.V[node] - left.V[node]) / 2;
            squares += (slopeU * slopeU) + (slopeV * slopeV);
            products += (slopeU * missU) + (slopeV * missV);
        }

        return Math.Abs(products / squares);
    }

    private sealed record Outcome(double Frame, double Mean, double Position);
}
