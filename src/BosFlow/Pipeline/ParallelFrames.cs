using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using BosFlow.Footage;

namespace BosFlow.Pipeline;

/// <summary>One thread reads frames, several work on them; no more than twice as many frames as workers are held at a time.</summary>
internal static class ParallelFrames
{
    /// <summary>Hands every frame to exactly one call of <paramref name="work"/>.</summary>
    /// <param name="read">Reads the frames; called once, on the reading thread.</param>
    /// <param name="workers">Number of working threads, at least 1.</param>
    /// <param name="work">What to do with a frame. An exception ends everything and is thrown again here.</param>
    /// <param name="cancellationToken">Ends everything.</param>
    /// <exception cref="OperationCanceledException">Cancelled from outside.</exception>
    public static void Run(
        Func<CancellationToken, IEnumerable<Frame>> read, int workers, Action<Frame, CancellationToken> work, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(workers, 1);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        using var queue = new BlockingCollection<Frame>(workers);
        ExceptionDispatchInfo? first = null;

        // An exception stops the other threads, whose own cancellation must not hide it: only the first one counts.
        void Guarded(Action action)
        {
            try
            {
                action();
            }
            catch (Exception exception)
            {
                Interlocked.CompareExchange(ref first, ExceptionDispatchInfo.Capture(exception), null);
                stop.Cancel();
            }
        }

        void Read()
        {
            try
            {
                foreach (Frame frame in read(stop.Token))
                    queue.Add(frame, stop.Token);
            }
            finally
            {
                queue.CompleteAdding();
            }
        }

        void Work()
        {
            foreach (Frame frame in queue.GetConsumingEnumerable(stop.Token))
                work(frame, stop.Token);
        }

        var threads = new List<Thread> { new(() => Guarded(Read)) { IsBackground = true, Name = "frame reader" } };
        for (int i = 0; i < workers; i++)
            threads.Add(new Thread(() => Guarded(Work)) { IsBackground = true, Name = FormattableString.Invariant($"frame worker {i}") });
        foreach (Thread thread in threads)
            thread.Start();
        foreach (Thread thread in threads)
            thread.Join();

        cancellationToken.ThrowIfCancellationRequested();
        first?.Throw();
    }
}
