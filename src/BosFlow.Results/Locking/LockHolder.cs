namespace BosFlow.Results.Locking;

/// <summary>Who holds a lock; the first line of its file, as JSON.</summary>
/// <param name="Work">What for, for messages, such as "shard 3 of 16".</param>
/// <param name="Host">Name of the machine.</param>
/// <param name="Process">Number of the process there.</param>
/// <param name="ProcessStart">When the process started, in the machine's own count; tells it from a later process of the same number.</param>
/// <param name="Machine">The start of the machine and its space of process numbers; process numbers of another one mean nothing here.</param>
/// <param name="SinceUtc">When the lock was taken, for messages only.</param>
public sealed record LockHolder(string Work, string Host, int Process, string ProcessStart, string Machine, DateTimeOffset SinceUtc)
{
    /// <summary>This process as a holder.</summary>
    /// <param name="work">What for.</param>
    /// <param name="clock">Clock for the message.</param>
    public static LockHolder ThisProcess(string work, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        return new LockHolder(work, Environment.MachineName, Environment.ProcessId, ProcessSigns.StartOf(Environment.ProcessId) ?? string.Empty, ProcessSigns.Machine(), clock.GetUtcNow());
    }

    /// <summary>Whether this machine can see the holder's process, or that it is gone.</summary>
    internal bool IsOfThisMachine => Host == Environment.MachineName && Machine.Length > 0 && Machine == ProcessSigns.Machine();

    /// <summary>Whether the holder, a process of this machine, is at work.</summary>
    internal bool IsRunning => ProcessSigns.StartOf(Process) is { } start && start == ProcessStart;

    /// <summary>Who, where and since when, for messages.</summary>
    public override string ToString() => FormattableString.Invariant(
        $"{Work}, process {Process} on {(IsOfThisMachine ? "this machine" : Host)}, since {SinceUtc.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC");
}
