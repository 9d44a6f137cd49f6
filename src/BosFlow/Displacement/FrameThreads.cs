namespace BosFlow.Displacement;

/// <summary>Divides the work on one frame among threads. Which thread does a part never matters: every part writes its own places.</summary>
/// <remarks>Some thirty times a frame the threads meet, so that helpers stay with the frame between two of its phases instead of being called anew; <see cref="Dispose"/> lets them go.</remarks>
/// <param name="count">Threads that may work at once, the caller's included, at least 1.</param>
internal sealed class FrameThreads(int count) : IDisposable
{
    private volatile Phase? current;
    private volatile bool hasEnded;
    private bool isHelped;

    /// <summary>One thread: the caller's.</summary>
    public static FrameThreads One { get; } = new(1);

    /// <summary>Does parts 0 to parts - 1; returns when all are done. The first failure of a part is thrown again.</summary>
    public void Run(int parts, Action<int> work, CancellationToken cancellationToken)
    {
        if (count == 1 || parts == 1)
        {
            for (int part = 0; part < parts; part++)
            {
                cancellationToken.ThrowIfCancellationRequested();
                work(part);
            }

            return;
        }

        var phase = new Phase(parts, work, cancellationToken);
        current = phase;
        CallHelpers();
        phase.Execute();
        phase.Await();
    }

    /// <summary>Lets the helpers go.</summary>
    public void Dispose()
    {
        hasEnded = true;
        current = null;
    }

    private void CallHelpers()
    {
        if (isHelped)
            return;
        isHelped = true;
        for (int helper = 1; helper < count; helper++)
            ThreadPool.UnsafeQueueUserWorkItem(new Helper(this), preferLocal: false);
    }

    private sealed class Helper(FrameThreads threads) : IThreadPoolWorkItem
    {
        public void Execute()
        {
            Phase? done = null;
            var wait = default(SpinWait);
            while (!threads.hasEnded)
            {
                if (threads.current is { } phase && phase != done)
                {
                    phase.Execute();
                    done = phase;
                    wait.Reset();
                }
                else
                {
                    wait.SpinOnce(sleep1Threshold: -1);
                }
            }
        }
    }

    // A helper that comes late finds no part left and touches nothing, so nobody has to wait for it.
    private sealed class Phase(int parts, Action<int> work, CancellationToken cancellationToken)
    {
        private int next;
        private int done;
        private Exception? failure;

        public void Execute()
        {
            for (int part = Interlocked.Increment(ref next) - 1; part < parts; part = Interlocked.Increment(ref next) - 1)
            {
                Do(part);
                Interlocked.Increment(ref done);
            }
        }

        public void Await()
        {
            var wait = default(SpinWait);
            while (Volatile.Read(ref done) < parts)
                wait.SpinOnce(sleep1Threshold: -1);
            cancellationToken.ThrowIfCancellationRequested();
            if (failure is not null)
                System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(failure);
        }

        private void Do(int part)
        {
            if (cancellationToken.IsCancellationRequested || Volatile.Read(ref failure) is not null)
                return;
            try
            {
                work(part);
            }
            catch (Exception caught)
            {
                Interlocked.CompareExchange(ref failure, caught, null);
            }
        }
    }
}
