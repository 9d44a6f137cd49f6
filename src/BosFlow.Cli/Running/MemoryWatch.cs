namespace BosFlow.Cli.Running;

/// <summary>Looks at the memory that this process really takes, and clears up before it says that there is too little.</summary>
/// <param name="limitBytes">The most it should take.</param>
/// <param name="clock">Clock between two clearings.</param>
internal sealed class MemoryWatch(long limitBytes, TimeProvider clock)
{
    // Clearing up stops every thread for a moment.
    private static readonly TimeSpan BetweenClearings = TimeSpan.FromSeconds(2);

    private long? lastClearing;

    /// <summary>Whether the process takes more than it should even after clearing up. For one thread.</summary>
    public bool IsShort()
    {
        if (Environment.WorkingSet <= limitBytes)
            return false;
        if (lastClearing is { } last && clock.GetElapsedTime(last) < BetweenClearings)
            return true;
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        lastClearing = clock.GetTimestamp();
        return Environment.WorkingSet > limitBytes;
    }
}
