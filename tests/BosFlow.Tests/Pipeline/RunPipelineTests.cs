using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Tests.Pipeline;

public sealed class RunPipelineTests
{
    private static readonly PixelPolygon WholePicture = new([(0, 0), (FakeStages.Width, 0), (FakeStages.Width, FakeStages.Height), (0, FakeStages.Height)]);

    [Fact]
    public void Run_PlainClip_TakesTheMotionOutAndWritesTheSummary()
    {
        var store = new MemoryStore();

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(12, store), FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal(12, outcome.FramesMeasured);
        Assert.Empty(outcome.FailedFrames);
        FrameResult frame = store.Frames[7];
        Assert.Equal(1.5, frame.Motion.H13, 0.002);
        Assert.Equal(-2.25, frame.Motion.H23, 0.002);
        Assert.All(frame.Field.U, u => Assert.InRange(u, -0.015, 0.015));
        // Uniform noise of width 0.02 has a standard deviation of 0.02 / sqrt(12) = 0.0058.
        Assert.InRange(outcome.NoiseFloorU, 0.0052, 0.0064);
        Assert.Equal(1, outcome.ValidFraction);
        Assert.NotNull(store.Summary);
        Assert.Equal(12, store.Summary.Frames.Count);
        Assert.All(store.Summary.Statistics.Count, count => Assert.Equal(12, count));
        Assert.NotEmpty(store.Summary.DerivedFields);
        Assert.NotNull(store.Summary.Scale);
    }

    [Fact]
    public void Run_OtherNumbersOfThreads_GivesTheSameBits()
    {
        var stores = new List<MemoryStore>();
        foreach (int threads in new[] { 1, 2, 5 })
        {
            var store = new MemoryStore();
            RunPipeline.Run(RunScenes.Request(20, store, threads), FakeStages.Of(), null, CancellationToken.None);
            stores.Add(store);
        }

        Assert.All(stores, store => Assert.Equal(stores[0].Summary!.Statistics.MeanU, store.Summary!.Statistics.MeanU));
        Assert.All(stores, store => Assert.Equal(stores[0].Summary!.Statistics.SigmaMeanV, store.Summary!.Statistics.SigmaMeanV));
        Assert.All(stores, store => Assert.Equal(stores[0].Frames[13].Field.V, store.Frames[13].Field.V));
        Assert.All(stores, store => Assert.Equal(stores[0].Summary!.Frames.Select(f => f.Motion), store.Summary!.Frames.Select(f => f.Motion)));
    }

    [Fact]
    public void Run_StoreHoldsFrames_MeasuresOnlyTheOthersAndGathersAll()
    {
        var store = new MemoryStore();
        var complete = new MemoryStore();
        RunPipeline.Run(RunScenes.Request(10, complete), FakeStages.Of(), null, CancellationToken.None);
        foreach (int index in new[] { 0, 3, 9 })
            store.Frames[index] = complete.Frames[index];

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(10, store), FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal(3, outcome.FramesResumed);
        Assert.Equal(7, store.Writes);
        Assert.Equal(complete.Summary!.Statistics.MeanU, store.Summary!.Statistics.MeanU);
    }

    [Fact]
    public void Run_ForcedOnAFullStore_MeasuresEverythingAgain()
    {
        var store = new MemoryStore();
        RunPipeline.Run(RunScenes.Request(4, store), FakeStages.Of(), null, CancellationToken.None);
        RunRequest again = RunScenes.Request(4, store) with { Options = new RunOptions { Force = true, Threads = 1 } };

        RunOutcome outcome = RunPipeline.Run(again, FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal(0, outcome.FramesResumed);
        Assert.Equal(8, store.Writes);
    }

    [Fact]
    public void Run_StoreHoldsFramesOfAnotherGrid_MeasuresThemAgain()
    {
        var store = new MemoryStore();
        RunPipeline.Run(RunScenes.Request(2, store), FakeStages.Of(), null, CancellationToken.None);
        RunRequest other = RunScenes.Request(2, store, experiment: RunScenes.Case with { Displacement = new DisplacementSettings { WindowPixels = 16, SpacingPixels = 4 } });

        RunOutcome outcome = RunPipeline.Run(other, FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal(0, outcome.FramesResumed);
        Assert.Equal(4, store.Frames[1].Field.Grid.Spacing);
    }

    [Fact]
    public void Run_Cancelled_KeepsFinishedFramesAndWritesNoSummary()
    {
        using var cancel = new CancellationTokenSource();
        int writes = 0;
        var store = new MemoryStore
        {
            Writing = _ =>
            {
                if (Interlocked.Increment(ref writes) == 5)
                    cancel.Cancel();
            },
        };

        Assert.ThrowsAny<OperationCanceledException>(() => RunPipeline.Run(RunScenes.Request(200, store), FakeStages.Of(), null, cancel.Token));

        Assert.InRange(store.Frames.Count, 5, 8);
        Assert.Null(store.Summary);
    }

    [Fact]
    public void Run_SlowWork_ReadsOnlyAFewFramesAhead()
    {
        int most = 0;
        MemoryFootage? footage = null;
        var store = new MemoryStore();
        int finished = 0;
        RunStages stages = FakeStages.Of((_, field) =>
        {
            Thread.Sleep(2);
            most = Math.Max(most, footage!.FramesRead - Interlocked.Increment(ref finished));
            return field;
        });
        RunRequest request = RunScenes.Request(60, store, threads: 1);
        footage = (MemoryFootage)request.Footage;

        RunPipeline.Run(request, stages, null, CancellationToken.None);

        // One in the queue, one in the reader's hand.
        Assert.InRange(most, 0, 2);
    }

    [Fact]
    public void Run_StoreCannotWrite_EndsWithItsException()
    {
        var store = new MemoryStore { Writing = _ => throw new IOException("No space left on the disk.") };

        IOException exception = Assert.Throws<IOException>(() => RunPipeline.Run(RunScenes.Request(30, store), FakeStages.Of(), null, CancellationToken.None));

        Assert.Contains("No space", exception.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FramesOfEveryKindOfFailure_AreRecordedAndTheRunGoesOn()
    {
        var store = new MemoryStore();
        Frame Make(int index) => index switch
        {
            1 => RunScenes.Frame(index, failure: "The file is cut off after 1000 bytes."),
            2 => RunScenes.Frame(index, new GrayImage(FakeStages.Width, FakeStages.Height, new float[FakeStages.Width * FakeStages.Height], 255)),
            3 => RunScenes.Frame(index, Filled(255)),
            4 => RunScenes.Frame(index, new GrayImage(10, 10, new float[100], 255)),
            6 => RunScenes.Frame(index, FloatPicture()),
            _ => RunScenes.Frame(index),
        };
        RunStages stages = FakeStages.Of(
            (picture, field) => picture[0, 0] == 5 ? throw new InvalidOperationException("Singular window.") : field,
            picture => picture[0, 0] == 7 ? new MotionEstimate(PlanarMotion.Identity, 0, "No common shift was found.") : new MotionEstimate(FakeStages.Motion, 1, null));

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(10, store, make: Make), stages, null, CancellationToken.None);

        Assert.Equal([1, 2, 3, 4, 5, 6, 7], outcome.FailedFrames.Select(frame => frame.Index));
        Assert.Contains("cut off", outcome.FailedFrames[0].Reason, StringComparison.Ordinal);
        Assert.Contains("black", outcome.FailedFrames[1].Reason, StringComparison.Ordinal);
        Assert.Contains("saturated", outcome.FailedFrames[2].Reason, StringComparison.Ordinal);
        Assert.Contains("10 x 10", outcome.FailedFrames[3].Reason, StringComparison.Ordinal);
        Assert.Contains("Singular window", outcome.FailedFrames[4].Reason, StringComparison.Ordinal);
        Assert.Contains("floating-point", outcome.FailedFrames[5].Reason, StringComparison.Ordinal);
        Assert.Contains("No common shift", outcome.FailedFrames[6].Reason, StringComparison.Ordinal);
        Assert.All(store.Frames[3].Field.Flags, flag => Assert.Equal(VectorFlags.Saturated, flag));
        Assert.All(store.Frames[2].Field.Flags, flag => Assert.Equal(VectorFlags.LowTexture, flag));
        Assert.All(store.Frames[5].Field.U, u => Assert.True(float.IsNaN(u)));
        Assert.All(store.Summary!.Statistics.Count, count => Assert.Equal(3, count));
        Assert.Contains(outcome.Warnings, warning => warning.StartsWith("7 of 10 frames (1, 2, 3, 4, 5, ...) could not be measured", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_NoFrameUsable_FailsByNameWithoutSummary()
    {
        var store = new MemoryStore();

        RunFailedException exception = Assert.Throws<RunFailedException>(() => RunPipeline.Run(
            RunScenes.Request(3, store, make: index => RunScenes.Frame(index, failure: "The file is empty.")), FakeStages.Of(), null, CancellationToken.None));

        Assert.Equal("None of the 3 frames could be measured: frame 0 (frames/000.png): The file is empty.", exception.Message);
        Assert.Equal(3, exception.FailedFrames.Count);
        Assert.Null(store.Summary);
    }

    [Fact]
    public void Run_FootageEndsEarly_RecordsTheMissingFrames()
    {
        var store = new MemoryStore();
        RunRequest request = RunScenes.Request(6, store) with { Footage = new CutFootage() };

        RunOutcome outcome = RunPipeline.Run(request, FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal([1, 4, 5], outcome.FailedFrames.Select(frame => frame.Index));
        Assert.All(outcome.FailedFrames, frame => Assert.Contains("ended before", frame.Reason, StringComparison.Ordinal));
        Assert.Equal(0.08, store.Frames[4].TimeSeconds, 12);
    }

    [Fact]
    public void Run_MotionNone_LeavesTheFieldAndWarnsThatTheNoiseFloorIsUnknown()
    {
        var store = new MemoryStore();
        ExperimentCase experiment = RunScenes.Case with { Registration = new RegistrationSettings { Motion = MotionModel.None } };

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(3, store, experiment: experiment), FakeStages.Of(), null, CancellationToken.None);

        Assert.True(double.IsNaN(outcome.NoiseFloorU));
        Assert.Equal(1.5f, store.Frames[0].Field.U[5], 0.011f);
        Assert.Contains(outcome.Warnings, warning => warning.Contains("registration is set to none", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_MotionNoneWithTheFlowDrawn_HasTheShakeInItsNoiseFloor()
    {
        var store = new MemoryStore();
        ExperimentCase experiment = RunScenes.Case with
        {
            Registration = new RegistrationSettings { Motion = MotionModel.None },
            Region = new RegionSettings { Flow = [new PixelPolygon([(0, 0), (20, 0), (20, 20)])] },
        };

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(3, store, experiment: experiment), FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal(1.5, outcome.NoiseFloorU, 0.01);
        Assert.Contains(outcome.Warnings, warning => warning.Contains("part of the result and of the noise floor;", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_FlowRegionCoversEverything_TakesTheEstimateOutAndWarns()
    {
        var store = new MemoryStore();
        ExperimentCase experiment = RunScenes.Case with { Region = new RegionSettings { Flow = [WholePicture] } };

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(3, store, experiment: experiment), FakeStages.Of(), null, CancellationToken.None);

        Assert.True(double.IsNaN(store.Frames[1].NoiseFloorU));
        Assert.Equal(FakeStages.Motion, store.Frames[1].Motion);
        Assert.Contains(outcome.Warnings, warning => warning.Contains("No vector lies wholly in the undisturbed region", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_VectorsThatDisagree_AreNamedBesideTheNoiseFloor()
    {
        var store = new MemoryStore();
        RunStages stages = FakeStages.Of((_, field) =>
        {
            for (int i = 22; i < 37; i++)
                field.U[i] += 1;
            return field;
        });

        RunPipeline.Run(RunScenes.Request(1, store), stages, null, CancellationToken.None);

        Assert.InRange(store.Frames[0].NoiseFloorU, 0.005, 0.0065);
        // The shift carries the last column and the first row out of the frame: 14 of the other 60 vectors.
        Assert.Contains(store.Frames[0].Warnings, warning => warning.StartsWith("23", StringComparison.Ordinal) && warning.Contains("do not follow the motion", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_FlaggedVectors_CountNeitherAsValidNorForTheMotion()
    {
        var store = new MemoryStore();
        RunStages stages = FakeStages.Of((_, field) =>
        {
            for (int i = 0; i < 44; i++)
                (field.U[i], field.Flags[i]) = (30, VectorFlags.OutlierReplaced);
            for (int i = 44; i < 55; i++)
                (field.U[i], field.Flags[i]) = (float.NaN, VectorFlags.Masked);
            return field;
        });

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(1, store), stages, null, CancellationToken.None);

        Assert.Equal(1.5, store.Frames[0].Motion.H13, 0.01);
        Assert.Equal(22.0 / 66, store.Frames[0].ValidFraction, 12);
        Assert.Contains(outcome.Warnings, warning => warning.Contains("less than half of the vectors", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_OneShakenFrame_IsNamedAsAJumpOfTheNoiseFloor()
    {
        var store = new MemoryStore();
        RunStages stages = FakeStages.Of((picture, field) =>
        {
            for (int i = 0; i < field.Grid.Count && picture[0, 0] == 4; i++)
                field.U[i] += 0.05f * ((i % 5) - 2);
            return field;
        });

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(9, store), stages, null, CancellationToken.None);

        Assert.Contains(outcome.Warnings, warning => warning.StartsWith("The noise floor of 1 of 9 frames (4)", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_EstimatorWithoutTexture_StartsFromNoMotionAndSaysWhy()
    {
        var store = new MemoryStore();
        RunStages stages = FakeStages.Of(estimate: _ => throw new InvalidOperationException("must not be asked"), unusable: "No texture to register by.");

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(2, store), stages, null, CancellationToken.None);

        Assert.Equal(1.5, store.Frames[1].Motion.H13, 0.002);
        Assert.Contains("No texture to register by.", outcome.Warnings);
    }

    [Fact]
    public void Run_MeasuredFramesInTheReference_AreNamed()
    {
        ExperimentCase experiment = RunScenes.Case with { Reference = new ReferenceSettings { Use = "0:2" } };

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(4, new MemoryStore(), experiment: experiment), FakeStages.Of(), null, CancellationToken.None);

        Assert.Contains(outcome.Warnings, warning => warning.StartsWith("2 of 4 measured frames are also among the 2 frames of the reference", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_ReferenceOfAnotherSize_IsRefused()
    {
        RunStages stages = FakeStages.Of() with { BuildReference = (_, _, _) => new Reference(new GrayImage(8, 8, new float[64], 255), 1, "small", [], []) };

        InputDataException exception = Assert.Throws<InputDataException>(() => RunPipeline.Run(RunScenes.Request(2, new MemoryStore()), stages, null, CancellationToken.None));

        Assert.Contains("8 x 8 px", exception.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_Progress_CountsEveryFrameOnceInOrder()
    {
        var seen = new List<RunProgress>();

        RunPipeline.Run(RunScenes.Request(15, new MemoryStore(), threads: 3), FakeStages.Of(), new Listener(seen), CancellationToken.None);

        Assert.Equal(RunStep.Reference, seen[0].Step);
        Assert.Equal(Enumerable.Range(0, 16), seen.Where(progress => progress.Step == RunStep.Frames).Select(progress => progress.FramesDone));
        Assert.Equal(RunStep.Summary, seen[^1].Step);
    }

    [Fact]
    public void Run_ReferenceOfSeveralFrames_TellsHowManyWereTaken()
    {
        var seen = new List<RunProgress>();
        RunStages stages = FakeStages.Of() with
        {
            BuildReference = (asked, _, _) => new Reference(FakeStages.Picture(0), asked.Reference.Frames.Count(), "three frames", [], []),
        };
        RunRequest request = RunScenes.Request(1, new MemoryStore());
        Frame frame = new(0, 0, "frame", FakeStages.Picture(0), null);

        RunPipeline.Run(request with { Reference = new ReferenceSource([frame, frame, frame], "", [], false) { FrameCount = 3 } }, stages, new Listener(seen), CancellationToken.None);

        Assert.Equal([(0, 3), (1, 3), (2, 3), (3, 3)], seen.Where(progress => progress.Step == RunStep.Reference).Select(progress => (progress.FramesDone, progress.FramesTotal)));
    }

    private static GrayImage Filled(float level)
    {
        float[] pixels = new float[FakeStages.Width * FakeStages.Height];
        Array.Fill(pixels, level);
        return new GrayImage(FakeStages.Width, FakeStages.Height, pixels, 255);
    }

    private static GrayImage FloatPicture() =>
        new(FakeStages.Width, FakeStages.Height, FakeStages.Picture(6).Pixels.ToArray(), float.NaN);

    private sealed class Listener(List<RunProgress> seen) : IProgress<RunProgress>
    {
        public void Report(RunProgress value) => seen.Add(value);
    }

    private sealed class CutFootage : IFootage
    {
        public FootageInfo Info => new MemoryFootage(FakeStages.Width, FakeStages.Height, 6, index => RunScenes.Frame(index)).Info;

        public IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken) =>
            [RunScenes.Frame(0), RunScenes.Frame(2), RunScenes.Frame(3)];
    }
}
