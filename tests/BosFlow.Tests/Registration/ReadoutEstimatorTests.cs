using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Registration;

public sealed class ReadoutEstimatorTests
{
    private const int Width = 512;
    private const int Height = 384;
    private const double FrameRateHz = 60;

    private static readonly VibrationSettings Engine = new()
    {
        LowHertz = 1, HighHertz = 15, ShiftRmsPixels = 2, RotationRmsDegrees = 0.05, Lines = [new VibrationLine(82, 2), new VibrationLine(164, 0.5)],
    };

    private static readonly VibrationSettings Broad = new() { LowHertz = 1, HighHertz = 180, ShiftRmsPixels = 4, RotationRmsDegrees = 0.05, ScaleRmsPercent = 0.02 };

    private static readonly VibrationSettings Slow = new() { LowHertz = 0.5, HighHertz = 12, ShiftRmsPixels = 5 };

    public static TheoryData<string, double, ulong> Scenes => new()
    {
        { "engine", 0.3, 1 }, { "engine", 0.95, 3 }, { "broad", 0.6, 5 }, { "slow", 0.8, 8 },
    };

    [Theory]
    [MemberData(nameof(Scenes))]
    public void Estimate_ShakenRows_FindsTheReadoutWithinItsUncertainty(string vibration, double readoutShare, ulong seed)
    {
        SceneRecipe recipe = Recipe(vibration switch { "engine" => Engine, "broad" => Broad, _ => Slow }, readoutShare, seed);

        ReadoutEstimate found = Estimate(recipe, threads: 2);

        // A scene's clock counts to the row after the last.
        double truth = readoutShare / FrameRateHz * (Height - 1) / Height;
        Assert.InRange(found.Seconds - truth, -3 * found.SigmaSeconds, 3 * found.SigmaSeconds);
        Assert.InRange(found.SigmaSeconds, 0, 0.05 / FrameRateHz);
        Assert.Equal(ReadoutEstimator.Frames, found.FrameCount);
    }

    [Fact]
    public void Estimate_ShakenRowsBehindALens_FindsTheReadoutWithinItsUncertainty()
    {
        SceneRecipe recipe = Recipe(Broad, 0.6, 5) with { Lens = LensParameters.Undistorted(Width, Height, 480) with { Radial1 = -0.1 } };

        ReadoutEstimate found = Estimate(recipe, threads: 2);

        double truth = 0.6 / FrameRateHz * (Height - 1) / Height;
        Assert.InRange(found.Seconds - truth, -3 * found.SigmaSeconds, 3 * found.SigmaSeconds);
        Assert.InRange(found.SigmaSeconds, 0, 0.05 / FrameRateHz);
    }

    [Fact]
    public void Estimate_CameraAtRest_SaysThatTheShakeIsTooSmall()
    {
        InputDataException refused = Assert.Throws<InputDataException>(() => Estimate(Recipe(null, 0.6, 9), threads: 2));

        Assert.Contains("too small or too uniform", refused.Message, StringComparison.Ordinal);
        Assert.Contains("give it in ms", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Estimate_RowsReadAtOnce_AsksForNoReadout()
    {
        InputDataException refused = Assert.Throws<InputDataException>(() => Estimate(Recipe(Engine, 0, 10), threads: 2));

        Assert.Contains("readout_ms = 0", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Estimate_FewFrames_SaysHowManyAreNeeded()
    {
        InputDataException refused = Assert.Throws<InputDataException>(() => Estimate(Recipe(Engine, 0.5, 11) with { FrameCount = 5, FlowOffCount = 5 }, threads: 1));

        Assert.Contains("only 5 frames", refused.Message, StringComparison.Ordinal);
    }

    private static ReadoutEstimate Estimate(SceneRecipe recipe, int threads)
    {
        var scene = new SyntheticScene(recipe, CancellationToken.None);
        var footage = new SceneFootage(scene);
        // A plume's place in the middle.
        var flow = new PixelPolygon([(192, 60), (320, 60), (320, 384), (192, 384)]);
        RegionMask region = RegionMask.Build(new RegionSettings { Flow = [flow] }, Width, Height);
        int[] frames = [.. Enumerable.Range(0, recipe.FrameCount)];
        return ReadoutEstimator.Estimate(footage.Read(frames, CancellationToken.None), region, new RegistrationSettings { Lens = recipe.Lens is { } lens ? new LensModel(lens) : null }, 1 / FrameRateHz, 32, threads, CancellationToken.None);
    }

    private static SceneRecipe Recipe(VibrationSettings? vibration, double readoutShare, ulong seed) => new()
    {
        Width = Width,
        Height = Height,
        FrameCount = ReadoutEstimator.Frames,
        FlowOffCount = ReadoutEstimator.Frames,
        FrameRateHz = FrameRateHz,
        Vibration = vibration,
        Shutter = new ShutterSettings { ReadoutSeconds = readoutShare / FrameRateHz },
        Speckle = new SpeckleSettings { Seed = seed, DotsPerPixel = 0.05, MarginPixels = 60 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Flow = new FlowRecipe.Shift(0, 0),
        Seed = seed,
    };
}
