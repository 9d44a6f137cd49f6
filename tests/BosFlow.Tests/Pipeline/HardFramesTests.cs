using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Tests.Registration;

namespace BosFlow.Tests.Pipeline;

/// <summary>Frames that a field day brings, through the whole pipeline with its own stages.</summary>
public sealed class HardFramesTests
{
    private const int Width = 384;
    private const int Height = 288;
    private static readonly SpeckleScene Scene = new(Width, Height);
    private static readonly PlanarMotion Shake = Scene.Similarity(6.3, -4.8, 0.3, 1.003);

    [Fact]
    public void Run_PlumeWithoutAFlowRegion_FollowsTheBackgroundAndSaysSo()
    {
        FrameResult frame = Run(Scene.Picture(1, Shake, Scene.Plume(1.5, 40)), out RunOutcome outcome);

        Assert.InRange(VectorCloud.Distance(Shake, frame.Motion, Width, Height), 0, 0.02);
        Assert.InRange(frame.NoiseFloorU, 0.004, 0.012);
        Assert.Contains(frame.Warnings, warning => warning.Contains("do not follow the motion", StringComparison.Ordinal));
        Assert.Contains(outcome.Warnings, warning => warning.StartsWith("The case draws no flow region", StringComparison.Ordinal));
        // Plume towards the axis: left of it to the right, at about its peak.
        int node = Node(frame.Field.Grid, (Width / 2) - 28, Height / 2);
        Assert.InRange(frame.Field.U[node], 1.1f, 1.6f);
    }

    [Fact]
    public void Run_HalfOfTheFrameSaturated_IsMeasuredInTheOtherHalf()
    {
        float[] pixels = Scene.Picture(1, Shake).Pixels.ToArray();
        for (int i = 0; i < pixels.Length; i++)
        {
            if (i % Width >= Width / 2)
                pixels[i] = 255;
        }

        FrameResult frame = Run(new GrayImage(Width, Height, pixels, 255), out _);

        Assert.Null(frame.Failure);
        Assert.InRange(frame.ValidFraction, 0.35, 0.55);
        Assert.InRange(frame.SaturatedFraction, 0.49, 0.52);
        Assert.Contains(frame.Warnings, warning => warning.Contains("saturated", StringComparison.Ordinal));
        Assert.InRange(VectorCloud.Distance(Shake, frame.Motion, Width / 2, Height), 0, 0.03);
        int saturated = Node(frame.Field.Grid, Width * 3 / 4, Height / 2);
        Assert.NotEqual(VectorFlags.None, frame.Field.Flags[saturated]);
    }

    [Fact]
    public void Run_ReferenceOfTheWholeClip_SeesDeparturesFromTheMeanAlone()
    {
        var store = new MemoryStore();
        GrayImage[] pictures = [.. Enumerable.Range(0, 6).Select(i => Scene.Picture(i, Scene.Similarity(i, -i, 0.05 * i, 1)))];
        Frame[] clip = [.. pictures.Select((picture, i) => RunScenes.Frame(i, picture))];
        RunRequest request = Request(store, 6, i => clip[i], new ReferenceSource(clip, "the clip", [], true));

        RunOutcome outcome = RunPipeline.Run(request, RunStages.Standard, null, CancellationToken.None);

        Assert.Empty(outcome.FailedFrames);
        Assert.Equal(6, store.Summary!.Reference.FrameCount);
        Assert.Contains(outcome.Warnings, warning => warning.Contains("only departures from the mean are seen", StringComparison.Ordinal));
        // A frame's noise of variance 1 against a mean of six of which it is one: 1 - 1/6, against one other frame 2 (0.0075 px).
        Assert.InRange(outcome.NoiseFloorU, 0.003, 0.0072);
    }

    private static FrameResult Run(GrayImage picture, out RunOutcome outcome)
    {
        var store = new MemoryStore();
        Frame[] references = [RunScenes.Frame(50, Scene.Picture(50)), RunScenes.Frame(51, Scene.Picture(51))];
        RunRequest request = Request(store, 1, i => RunScenes.Frame(i, picture), new ReferenceSource(references, "two pictures", [], false));
        outcome = RunPipeline.Run(request, RunStages.Standard, null, CancellationToken.None);
        return store.Frames[0];
    }

    private static RunRequest Request(MemoryStore store, int count, Func<int, Frame> make, ReferenceSource reference) => new()
    {
        Case = new ExperimentCase { Footage = new FootageSettings { Frames = ["frames/*.png"] }, Registration = new RegistrationSettings { LargestShiftPixels = 32 } },
        Footage = new MemoryFootage(Width, Height, count, make),
        FrameIndices = [.. Enumerable.Range(0, count)],
        Reference = reference,
        Store = store,
        Options = new RunOptions { Threads = 2 },
    };

    private static int Node(NodeGrid grid, double x, double y) =>
        ((int)Math.Round((y - grid.OriginY) / grid.Spacing) * grid.Columns) + (int)Math.Round((x - grid.OriginX) / grid.Spacing);
}
