using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Pipeline;

/// <summary>Which frames of a shaken take a run leaves out; the scene knows which were blurred, repeated, or shaken too far.</summary>
public sealed class FrameChoiceTests
{
    private const int Width = 320;
    private const int Height = 256;
    private const int LargestShift = 24;

    private static readonly SceneRecipe Recipe = new()
    {
        Width = Width,
        Height = Height,
        FrameCount = 16,
        FlowOffCount = 1,
        Flow = new FlowRecipe.Shift(0, 0),
        Speckle = new SpeckleSettings { DotDiameterPixels = 3, DotsPerPixel = 0.04, MarginPixels = 90, Seed = 41 },
        Sensor = new SensorSettings { NoisePercent = 1 },
        Vibration = new VibrationSettings { LowHertz = 2, HighHertz = 40, ShiftRmsPixels = 2.5, StillFrames = 1 },
        Order = new FrameOrder { Repeated = [3, 9, 10] },
        Seed = 42,
    };

    private static readonly SyntheticScene Sharp = new(Recipe, CancellationToken.None);

    // The shutter stays open for the whole period: the vibration drags every dot over many pixels.
    private static readonly SyntheticScene Blurred = new(
        Recipe with { Vibration = Recipe.Vibration! with { ShiftRmsPixels = 4 }, Shutter = new ShutterSettings { ExposureSeconds = 1 / Recipe.FrameRateHz } }, CancellationToken.None);

    [Fact]
    public void Run_BlurredRepeatedAndFarFrames_LeavesOutExactlyThese()
    {
        MemoryStore store = Run([.. Enumerable.Range(1, 15)], new FootageSettings());

        FrameRecord[] records = [.. store.Summary!.Frames];
        Assert.Equal([3, 9, 10], Numbers(records, "repeats the picture of frame"));
        Assert.Equal([5, 6], Numbers(records, "is blurred"));
        Assert.Equal([7], Numbers(records, "shaken too far: shifted by 60 px in x and -40 px in y"));
        Assert.All(records, record => Assert.Null(record.Failure));
        Assert.Equal(9, records.Count(record => record.IsMeasured));
        Assert.All(store.Summary.Statistics.Count, count => Assert.InRange(count, 0, 9));
        Assert.All(store.Frames[5].Field.U, u => Assert.True(float.IsNaN(u)));
        Assert.Contains(store.Summary.Warnings, warning => warning.StartsWith("6 of 15 frames (3, 5, 6, 7, 9, ...) were left out, first frame 3", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_SettingsThatKeepAll_MeasuresRepeatedAndBlurredFrames()
    {
        MemoryStore store = Run([3, 4, 5], new FootageSettings { SkipRepeats = false, BlurLimit = 1000 });

        Assert.All(store.Summary!.Frames, record => Assert.Null(record.Rejection));
        Assert.True(store.Frames[3].IsMeasured);
    }

    [Fact]
    public void Run_OneFrameAlone_IsJudgedAsAmongAll()
    {
        MemoryStore store = Run([9, 11], new FootageSettings());

        Assert.Contains("repeats the picture of frame 8", store.Frames[9].Rejection, StringComparison.Ordinal);
        Assert.True(store.Frames[11].IsMeasured);
    }

    [Fact]
    public void Run_PicturesGivenBackAreOverwritten_GivesTheSameResults()
    {
        int[] frames = [2, 3, 4, 9, 10, 11];

        MemoryStore kept = Run(frames, new FootageSettings());
        MemoryStore overwritten = Run(frames, new FootageSettings(), overwrites: true);

        Assert.All(frames, frame => Assert.Equal(kept.Frames[frame].Rejection, overwritten.Frames[frame].Rejection));
        Assert.All(frames, frame => Assert.Equal(kept.Frames[frame].Field.U, overwritten.Frames[frame].Field.U));
    }

    [Fact]
    public void Run_AllFramesLeftOut_IsAFailureWithTheReason()
    {
        RunFailedException exception = Assert.Throws<RunFailedException>(() => Run([3, 5], new FootageSettings()));

        Assert.Contains("frame 3", exception.Message, StringComparison.Ordinal);
        Assert.Contains("is blurred", exception.Message, StringComparison.Ordinal);
    }

    private static IEnumerable<int> Numbers(FrameRecord[] records, string why) =>
        records.Where(record => record.Rejection?.Contains(why, StringComparison.Ordinal) == true).Select(record => record.Index);

    private static MemoryStore Run(int[] frames, FootageSettings footage, bool overwrites = false)
    {
        var store = new MemoryStore();
        var request = new RunRequest
        {
            Case = new ExperimentCase
            {
                Footage = footage,
                Registration = new RegistrationSettings { Motion = MotionModel.Similarity, LargestShiftPixels = LargestShift },
                Displacement = new DisplacementSettings(),
            },
            Footage = new MemoryFootage(Width, Height, Recipe.FrameCount, index => RunScenes.Frame(index, Picture(index))) { Overwrites = overwrites },
            FrameIndices = frames,
            Reference = new ReferenceSource([RunScenes.Frame(0, Picture(0))], "one picture", [], false),
            Store = store,
        };
        RunPipeline.Run(request, RunStages.Standard, null, CancellationToken.None);
        return store;
    }

    private static GrayImage Picture(int frame) => frame switch
    {
        5 or 6 => Blurred.Render(frame, CancellationToken.None),
        7 => Sharp.Render(frame, PlanarMotion.Shift(60, -40), CancellationToken.None),
        _ => Sharp.Render(frame, CancellationToken.None),
    };
}
