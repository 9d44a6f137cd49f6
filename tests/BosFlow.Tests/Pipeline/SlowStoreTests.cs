using BosFlow.Pipeline;

namespace BosFlow.Tests.Pipeline;

/// <summary>A slow disk and too little memory make a run slow; they never let frames pile up.</summary>
public sealed class SlowStoreTests
{
    private const int Frames = 40;
    private const int Threads = 3;

    [Fact]
    public void Run_SlowStore_HoldsNoMoreFramesThanThreadsAllow()
    {
        int most = 0;
        MemoryFootage footage = Footage();
        MemoryStore store = null!;
        store = new MemoryStore
        {
            Writing = _ =>
            {
                Thread.Sleep(5);
                InterlockedMax(ref most, footage.FramesRead - store.Writes);
            },
        };

        Run(footage, store, isMemoryShort: null);

        Assert.Equal(Frames, store.Writes);
        // One frame in each worker, as many in the queue, one in the reader's hand.
        Assert.InRange(most, 1, (2 * Threads) + 1);
    }

    [Fact]
    public void Run_MemoryAlwaysShort_TakesOneFrameAfterTheOther()
    {
        int most = 0;
        MemoryFootage footage = Footage();
        MemoryStore store = null!;
        store = new MemoryStore { Writing = _ => InterlockedMax(ref most, footage.FramesRead - store.Writes) };

        Run(footage, store, isMemoryShort: () => true);

        Assert.Equal(Frames, store.Writes);
        Assert.Equal(1, most);
    }

    private static void Run(MemoryFootage footage, MemoryStore store, Func<bool>? isMemoryShort)
    {
        RunRequest request = RunScenes.Request(Frames, store) with
        {
            Footage = footage,
            Options = new RunOptions { Threads = Threads, IsMemoryShort = isMemoryShort },
        };
        RunPipeline.Run(request, FakeStages.Of(), null, CancellationToken.None);
    }

    private static MemoryFootage Footage() =>
        new(FakeStages.Width, FakeStages.Height, Frames, index => RunScenes.Frame(index));

    private static void InterlockedMax(ref int most, int value)
    {
        int seen;
        while (value > (seen = Volatile.Read(ref most)) && Interlocked.CompareExchange(ref most, value, seen) != seen)
        {
        }
    }
}
