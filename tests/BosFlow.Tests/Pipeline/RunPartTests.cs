using BosFlow.Pipeline;

namespace BosFlow.Tests.Pipeline;

public sealed class RunPartTests
{
    [Fact]
    public void Run_ShardsInAnyOrderThenGathering_GivesTheBitsOfAStraightRun()
    {
        RunSummary straight = Straight().Summary!;
        foreach (int[] order in new[] { [1], [2, 1, 3], new[] { 5, 7, 1, 2, 6, 4, 3 } })
        {
            var store = new MemoryStore();
            foreach (int number in order)
                Run(store, RunPart.Of(new Shard(number, order.Length)));
            Assert.Null(store.Summary);

            RunOutcome outcome = Run(store, RunPart.Gathering);

            Assert.Equal(10, outcome.FramesResumed);
            Assert.Equal(10, store.Writes);
            Assert.Equal(straight.Statistics.MeanU, store.Summary!.Statistics.MeanU);
            Assert.Equal(straight.Statistics.SigmaMeanV, store.Summary.Statistics.SigmaMeanV);
            Assert.Equal(straight.Frames.Select(frame => frame.Motion), store.Summary.Frames.Select(frame => frame.Motion));
        }
    }

    [Fact]
    public void Run_GatheringWithFramesMissing_NamesThemAndMeasuresNothing()
    {
        var store = new MemoryStore();
        Run(store, RunPart.Of(new Shard(2, 3)));

        MissingFramesException missing = Assert.Throws<MissingFramesException>(() => Run(store, RunPart.Gathering));

        Assert.Equal([0, 1, 2, 6, 7, 8, 9], missing.Frames);
        Assert.Null(store.Summary);
        Assert.Equal(3, store.Writes);
    }

    [Fact]
    public void Run_ShardWithoutFramesOrWithNoneLeft_AsksForNoReference()
    {
        var store = new MemoryStore();
        RunStages idle = FakeStages.Of() with { BuildReference = (_, _, _) => throw new InvalidOperationException("nobody needs a reference") };

        RunOutcome outcome = RunPipeline.Run(RunScenes.Request(2, store) with { Part = RunPart.Of(new Shard(1, 3)) }, idle, null, CancellationToken.None);
        Run(store, RunPart.Of(new Shard(2, 2)));
        RunOutcome again = RunPipeline.Run(RunScenes.Request(10, store) with { Part = RunPart.Of(new Shard(2, 2)) }, idle, null, CancellationToken.None);

        Assert.Equal(0, outcome.FramesTotal);
        Assert.Equal(5, again.FramesResumed);
        Assert.Equal(5, again.FramesMeasured);
    }

    [Fact]
    public void Run_ShardInWhichEveryFrameFails_TellsThemAndDoesNotThrow()
    {
        var store = new MemoryStore();
        RunRequest request = RunScenes.Request(4, store, make: index => RunScenes.Frame(index, failure: index > 1 ? "black" : null));

        RunOutcome outcome = RunPipeline.Run(request with { Part = RunPart.Of(new Shard(2, 2)) }, FakeStages.Of(), null, CancellationToken.None);

        Assert.Equal([2, 3], outcome.FailedFrames.Select(frame => frame.Index));
    }

    [Fact]
    public void Run_SourceThatChangesMeanwhile_KeepsNoFrameOfItAndWritesNoSummary()
    {
        var store = new MemoryStore();
        RunRequest request = RunScenes.Request(6, store, threads: 1) with { Sources = new ChangingSource(fromFrame: 3) };

        Assert.Throws<InputDataException>(() => RunPipeline.Run(request, FakeStages.Of(), null, CancellationToken.None));

        Assert.Equal([0, 1, 2], store.Frames.Keys.Order());
        Assert.Null(store.Summary);
    }

    private static MemoryStore Straight()
    {
        var store = new MemoryStore();
        Run(store, RunPart.Whole);
        return store;
    }

    private static RunOutcome Run(MemoryStore store, RunPart part) =>
        RunPipeline.Run(RunScenes.Request(10, store) with { Part = part }, FakeStages.Of(), null, CancellationToken.None);

    private sealed class ChangingSource(int fromFrame) : ISourceWatch
    {
        public void CheckFrame(int index, CancellationToken cancellationToken)
        {
            if (index >= fromFrame)
                throw new InputDataException("The file was changed.");
        }

        public void CheckAll(CancellationToken cancellationToken)
        {
        }
    }
}
