using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>What vibration leaves behind that shakes the rows of a frame one by one: noise floor and error of the plume, against the same clip from a camera at rest.</summary>
public static class RollingShutterStudy
{
    private const double FrameRateHz = 60;
    private const double ReadoutShare = 0.6;
    private const double ShiftRmsPixels = 6;
    private const double HighestHertz = 3 * FrameRateHz;
    private const double LeastSignalPixels = 0.02;
    private const double LargestFloorRatio = 1.2;
    private const double LargestErrorRatio = 1.3;
    private const double WantedCompressedRatio = 2; // not met at 30 Mbit/s: a frame of half a bit a pixel is mostly the frame before, moved by quarters of a pixel

    // Errors of compression are neither normal nor alike in plume and surroundings: judgement.
    private const double LeastWithinSigma = 0.55;
    private const double MostWithinSigma = 0.8;

    /// <summary>The scene filmed by a shaken camera that reads its rows over six tenths of the frame period.</summary>
    /// <param name="flowOff">Number of flow-off frames.</param>
    /// <param name="flowOn">Number of frames with flow.</param>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    public static SceneRecipe Recipe(int flowOff, int flowOn, double noisePercent) => new()
    {
        Width = 1280,
        Height = 720,
        FrameCount = flowOff + flowOn,
        FlowOffCount = flowOff,
        FrameRateHz = FrameRateHz,
        Flow = new FlowRecipe.Jet(640, 760, 87, 7e-3, 0.1, 573.15),
        Rig = new RigGeometry { LensToFlowMetres = 1, FlowToBackgroundMetres = 1, FocalLengthMetres = 35e-3, PixelPitchMetres = 3.45e-6, FNumber = 11 },
        Vibration = new VibrationSettings { LowHertz = 1, HighHertz = HighestHertz, ShiftRmsPixels = ShiftRmsPixels, RotationRmsDegrees = 0.09, ScaleRmsPercent = 0.02 },
        Shutter = new ShutterSettings { ReadoutSeconds = ReadoutShare / FrameRateHz },
        Speckle = new SpeckleSettings { Seed = 31, DotsPerPixel = 0.05, MarginPixels = 80 },
        Sensor = new SensorSettings { NoisePercent = noisePercent },
        Seed = 32,
    };

    /// <summary>Carries the study out for one noise level.</summary>
    /// <param name="flowOff">Number of flow-off frames.</param>
    /// <param name="flowOn">Number of frames with flow.</param>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    /// <param name="isRequired">Whether the ratios have to meet the requirement, or are only reported.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult Run(int flowOff, int flowOn, double noisePercent, bool isRequired, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        settings = settings with { Passes = DisplacementSettings.PassesForRows };
        SceneRecipe shaken = Recipe(flowOff, flowOn, noisePercent);
        Outcome still = Measure(shaken with { Vibration = null, Shutter = null }, settings, cancellationToken);
        Outcome moved = Measure(shaken, settings, cancellationToken);
        string study = FormattableString.Invariant($"rolling shutter, noise {noisePercent} %");
        Figure[] figures =
        [
            new(study, "noise floor at rest, RMS over frames and components", still.Floor, "px", null, null),
            new(study, "noise floor of the shaken rows", moved.Floor, "px", null, null),
            new(study, "noise floor of the shaken rows over that at rest", moved.Floor / still.Floor, "1", null, isRequired ? LargestFloorRatio : null),
            new(study, "plume at rest: RMS error of the displacement of one frame, a component", still.PlumeError, "px", null, null),
            new(study, "plume, shaken rows: the same", moved.PlumeError, "px", null, null),
            new(study, "plume, shaken rows: error over that at rest", moved.PlumeError / still.PlumeError, "1", null, isRequired ? LargestErrorRatio : null),
            new(study, "share of the vectors that could not be measured, shaken rows", moved.LostShare, "1", null, null, "rows that the frame has lost at an edge, and those next to them"),
        ];
        string description = FormattableString.Invariant(
            $"A jet at {shaken.Width} x {shaken.Height} px, 8 bit, noise {noisePercent} %, {flowOff} flow-off and {flowOn} flow frames at {FrameRateHz} Hz; vibration of {ShiftRmsPixels} px RMS in x and in y, 0.09 degrees and 0.02 %, evenly from 1 to {HighestHertz} Hz; rows read over {ReadoutShare * 100} % of the frame period, every row exactly as the camera stood when it was read; each row's motion fitted beside the plume; the reference fitted jointly to the flow-off frames. At rest every dot keeps its phase on the pixels and interpolation costs nothing.");
        return new StudyResult(FormattableString.Invariant($"Rolling shutter, noise {noisePercent} %"), description, figures, []);
    }

    /// <summary>The same through videos as a camera compresses them, against the uncompressed pictures.</summary>
    /// <param name="flowOff">Number of flow-off frames.</param>
    /// <param name="flowOn">Number of frames with flow.</param>
    /// <param name="noisePercent">Gaussian noise of every picture, percent of full scale.</param>
    /// <param name="compression">The camera's recorder.</param>
    /// <param name="settings">Settings of the engine.</param>
    /// <param name="cancellationToken">Interrupts the run.</param>
    public static StudyResult RunCompressed(int flowOff, int flowOn, double noisePercent, SceneCompression compression, DisplacementSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(compression);
        ArgumentNullException.ThrowIfNull(settings);
        settings = settings with { Passes = DisplacementSettings.PassesForRows };
        SceneRecipe shaken = Recipe(flowOff, flowOn, noisePercent);
        Outcome plain = Measure(shaken, settings, cancellationToken);
        string study = FormattableString.Invariant($"rolling shutter, {compression.Codec}, noise {noisePercent} %");
        List<Figure> figures =
        [
            new(study, "noise floor of the shaken rows, uncompressed", plain.Floor, "px", null, null),
            new(study, "plume, uncompressed: RMS error of the displacement of one frame, a component", plain.PlumeError, "px", null, null),
            new(study, "plume, uncompressed: share of the errors within one sigma (0.68 of normal errors)", plain.WithinSigma, "1", null, null),
        ];
        foreach (double rate in compression.MegabitsPerSecond)
        {
            Outcome compressed = Measure(shaken, settings, cancellationToken, scene => compression.Film(scene, rate));
            string words = FormattableString.Invariant($"{rate} Mbit/s, {rate * 1e6 / (FrameRateHz * shaken.Width * shaken.Height):0.00} bit a pixel");
            figures.Add(new(study, $"noise floor, {words}", compressed.Floor, "px", null, null));
            figures.Add(new(study, $"noise floor over uncompressed, {words}", compressed.Floor / plain.Floor, "1", null, null, FormattableString.Invariant($"wanted: at most {WantedCompressedRatio}")));
            figures.Add(new(study, $"plume: error, {words}", compressed.PlumeError, "px", null, null));
            figures.Add(new(study, $"plume: share of the errors within one sigma, {words}", compressed.WithinSigma, "1", LeastWithinSigma, MostWithinSigma, FormattableString.Invariant($"sigma multiplied by up to {compressed.SigmaFactor:0.00}")));
        }

        string description = FormattableString.Invariant(
            $"The scene of the rolling shutter, noise {noisePercent} %, {flowOff} flow-off and {flowOn} flow frames, written as {compression.Codec} at a steady rate without frames that rest on later ones, a key frame every half second, and decoded again: what compression adds to shake, readout and noise.");
        return new StudyResult(FormattableString.Invariant($"Rolling shutter, {compression.Codec}, noise {noisePercent} %"), description, figures, []);
    }

    private static Outcome Measure(SceneRecipe recipe, DisplacementSettings settings, CancellationToken cancellationToken, Func<SyntheticScene, IFootage>? film = null)
    {
        var scene = new SyntheticScene(recipe, cancellationToken);
        IFootage footage = film?.Invoke(scene) ?? new SceneFootage(scene);
        var registration = new RegistrationSettings { ReadoutSeconds = recipe.Shutter?.ReadoutSeconds ?? 0 };
        double[] times = [.. Enumerable.Range(0, recipe.FrameCount).Select(scene.TimeSeconds)];
        registration = RowTiming.Complete(registration, times, recipe.Height, settings.WindowPixels);
        MemoryRunStore store = SceneRun.Measure(scene, footage, registration, settings, cancellationToken, combine: ReferenceCombination.Joint);
        FrameResult[] frames = [.. Enumerable.Range(recipe.FlowOffCount, recipe.FrameCount - recipe.FlowOffCount).Select(store.ReadFrame)];
        SceneTruth truth = scene.TruthAt(frames[0].Field.Grid, cancellationToken);
        double floors = 0, errors = 0;
        int inPlume = 0, lost = 0, all = 0, within = 0;
        foreach (FrameResult frame in frames)
        {
            VectorField field = frame.Field;
            floors += (frame.NoiseFloorU * frame.NoiseFloorU) + (frame.NoiseFloorV * frame.NoiseFloorV);
            for (int node = 0; node < field.Flags.Length; node++)
            {
                all++;
                lost += field.Flags[node] == VectorFlags.None ? 0 : 1;
                if (field.Flags[node] != VectorFlags.None || Math.Abs(truth.U[node]) + Math.Abs(truth.V[node]) < LeastSignalPixels)
                    continue;
                errors += Math.Pow(field.U[node] - truth.U[node], 2) + Math.Pow(field.V[node] - truth.V[node], 2);
                within += Math.Abs(field.U[node] - truth.U[node]) <= field.SigmaU[node] ? 1 : 0;
                within += Math.Abs(field.V[node] - truth.V[node]) <= field.SigmaV[node] ? 1 : 0;
                inPlume++;
            }
        }

        return new Outcome(Math.Sqrt(floors / (2 * frames.Length)), Math.Sqrt(errors / (2 * inPlume)), (double)lost / all, within / (2.0 * inPlume), frames.Max(frame => Math.Max(frame.SigmaFactorU, frame.SigmaFactorV)));
    }

    private sealed record Outcome(double Floor, double PlumeError, double LostShare, double WithinSigma, double SigmaFactor);
}
