namespace BosFlow.Results.Locking;

/// <summary>Tells locks that are held from locks that a killed process or a lost machine left behind.</summary>
/// <remarks>
/// A process of this machine runs or not. A lock of another machine is watched: its holder changes the file every few
/// seconds. No two clocks are compared, so it does not matter whether they agree or are set meanwhile.
/// </remarks>
/// <param name="rhythm">Times.</param>
/// <param name="clock">Measures how long a lock is watched.</param>
/// <param name="remark">Told before a watch that takes long.</param>
internal sealed class LockCheck(LockRhythm rhythm, TimeProvider clock, Action<string> remark)
{
    /// <summary>The first of several locks that is held; null where all of them are left over or gone.</summary>
    /// <param name="locks">What the file of each lock says.</param>
    /// <param name="cancellationToken">Stops watching.</param>
    public string? FirstHeld(IReadOnlyDictionary<string, LockState> locks, CancellationToken cancellationToken)
    {
        foreach ((string path, LockState state) in locks)
        {
            if (state.Holder is { IsOfThisMachine: true, IsRunning: true })
                return path;
        }

        var watched = locks.Where(found => found.Value.Holder is not { IsOfThisMachine: true }).ToDictionary();
        return watched.Count == 0 ? null : Watch(watched, cancellationToken);
    }

    private string? Watch(Dictionary<string, LockState> watched, CancellationToken cancellationToken)
    {
        (string first, LockState state) = watched.First();
        remark(FormattableString.Invariant(
            $"{first} is a lock of {state.Holder?.ToString() ?? "an unknown process"}; looking for up to {rhythm.Silence.TotalSeconds:0} s whether it is still at work."));
        long start = clock.GetTimestamp();
        do
        {
            cancellationToken.WaitHandle.WaitOne(rhythm.Look);
            cancellationToken.ThrowIfCancellationRequested();
            foreach ((string path, LockState before) in watched.ToArray())
            {
                if (LockState.Read(path) is not { } now)
                    watched.Remove(path);
                else if (now.Text != before.Text)
                    return path;
            }
        }
        while (watched.Count > 0 && clock.GetElapsedTime(start) < rhythm.Silence);
        return null;
    }
}
