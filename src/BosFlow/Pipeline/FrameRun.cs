using System.Diagnostics;
using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>Measures the frames that the store does not hold yet.</summary>
internal sealed class FrameRun
{
    private static readonly TimeSpan MemoryLook = TimeSpan.FromMilliseconds(100);

    private readonly RunRequest request;
    private readonly FrameSequence sequence;
    private readonly FrameProcessor processor;
    private readonly IProgress<RunProgress>? progress;
    private readonly Lock counting = new();
    private int done;
    private int failed;

    public FrameRun(RunRequest request, FrameSequence sequence, FrameProcessor processor, IProgress<RunProgress>? progress)
    {
        this.request = request;
        this.sequence = sequence;
        this.processor = processor;
        this.progress = progress;
    }

    /// <summary>Measures and keeps every pending frame.</summary>
    /// <param name="pending">Numbers of the frames, ascending.</param>
    /// <param name="cancellationToken">Stops between two frames of each worker, and where the stages look.</param>
    public void Measure(IReadOnlyList<int> pending, CancellationToken cancellationToken)
    {
        done = request.FrameIndices.Count - pending.Count;
        Report();
        if (pending.Count == 0)
            return;
        ParallelFrames.Run(token => Complete(pending, token), request.Options.Threads, Measure, cancellationToken);
    }

    private void Measure(Frame frame, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        long start = Stopwatch.GetTimestamp();
        FrameResult result = processor.Measure(frame, cancellationToken);
        double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        // What came from a file that changed meanwhile is not of this run and must never lie among its frames.
        request.Sources?.CheckFrame(frame.Index, cancellationToken);
        sequence.Done(frame);
        request.Store.WriteFrame(result, seconds);
        if (!request.Store.KeepsFields)
            processor.Reuse(result);
        lock (counting)
        {
            done++;
            failed += result.Failure is null ? 0 : 1;
            Report();
        }
    }

    // A reader that ends early (a cut video) must not leave frames without a result.
    private IEnumerable<Frame> Complete(IReadOnlyList<int> pending, CancellationToken cancellationToken)
    {
        int next = 0;
        int doneBefore = request.FrameIndices.Count - pending.Count;
        foreach (Frame frame in sequence.Read(pending, cancellationToken))
        {
            for (; next < pending.Count && pending[next] < frame.Index; next++)
                yield return Missing(pending[next]);
            next++;
            yield return frame;
            AwaitMemory(doneBefore + next, cancellationToken);
        }

        for (; next < pending.Count; next++)
            yield return Missing(pending[next]);
    }

    // Always lets one frame pass: too little memory makes a run slow, never still.
    private void AwaitMemory(int handedOut, CancellationToken cancellationToken)
    {
        while (IsUnderWay(handedOut) && request.Options.IsMemoryShort?.Invoke() == true)
            _ = cancellationToken.WaitHandle.WaitOne(MemoryLook);
    }

    private bool IsUnderWay(int handedOut)
    {
        lock (counting)
            return done < handedOut && request.Options.IsMemoryShort is not null;
    }

    private Frame Missing(int index) => new(
        index,
        index < request.Footage.Info.FrameCount ? request.Footage.Info.TimesSeconds[index] : double.NaN,
        FormattableString.Invariant($"frame {index} of the footage"),
        null,
        "The footage ended before this frame.");

    private void Report() => progress?.Report(new RunProgress(RunStep.Frames, done, request.FrameIndices.Count, failed));
}
