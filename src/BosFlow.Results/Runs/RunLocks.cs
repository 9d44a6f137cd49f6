using BosFlow.Pipeline;
using BosFlow.Results.Locking;

namespace BosFlow.Results.Runs;

/// <summary>
/// Who may work in a run's folder at the same time: one process on the whole of it, or several on different shards of the
/// same split.
/// </summary>
/// <remarks>
/// Each takes its own lock first and looks at those of the others then. Two that exclude each other can so never both go
/// on; that both give way is possible, and harmless.
/// </remarks>
internal sealed class RunLocks(RunLayout layout, LockRhythm rhythm, TimeProvider clock, Action<string> remark)
{
    // Each attempt that fails has removed a lock that was left over, or has waited for another process that does.
    private const int Attempts = 10;

    private readonly LockCheck check = new(rhythm, clock, remark);

    /// <summary>Takes the lock.</summary>
    /// <param name="work">What for, for messages.</param>
    /// <param name="shard">The shard to work on; null = the run as a whole.</param>
    /// <param name="cancellationToken">Stops watching locks of other machines.</param>
    /// <exception cref="InputDataException">Another process is at work in the folder.</exception>
    public LockFile Take(string work, Shard? shard, CancellationToken cancellationToken)
    {
        LockFile own = Create(work, shard is null ? layout.Lock : layout.ShardFile(shard, ".lock"), cancellationToken);
        try
        {
            // Looked for only now: who starts after this sees the lock just taken.
            RemoveLeftOver(Excluded(shard), cancellationToken);
            return own;
        }
        catch
        {
            own.Dispose();
            throw;
        }
    }

    private LockFile Create(string work, string path, CancellationToken cancellationToken)
    {
        for (int attempt = 0; attempt < Attempts; attempt++)
        {
            if (LockFile.TryCreate(path, LockHolder.ThisProcess(work, clock), rhythm, clock) is { } own)
                return own;
            if (!RemoveLeftOver([path], cancellationToken))
                cancellationToken.WaitHandle.WaitOne(rhythm.Look);
        }

        throw new InputDataException($"Several processes try to work in {layout.Root} at the same moment; start one of them again. Should that not help, delete {LockFile.GuardOf(path)}.");
    }

    private IReadOnlyList<string> Excluded(Shard? shard) => shard is null
        ? layout.ShardLocks()
        : [layout.Lock, .. layout.ShardLocks().Where(path => !path.EndsWith(FormattableString.Invariant($"-of-{shard.Count}.lock"), StringComparison.Ordinal))];

    private bool RemoveLeftOver(IReadOnlyList<string> paths, CancellationToken cancellationToken)
    {
        Dictionary<string, LockState> found = [];
        foreach (string path in paths)
        {
            if (LockState.Read(path) is { } state)
                found[path] = state;
        }

        if (check.FirstHeld(found, cancellationToken) is { } held)
        {
            string who = found[held].Holder?.ToString() ?? "a process that does not say who it is";
            throw new InputDataException($"The run folder {layout.Root} is in use ({who}): wait until that has ended, or stop it, then start again; or choose another folder with --output.");
        }

        bool removed = false;
        foreach ((string path, LockState state) in found)
        {
            if (!LockFile.Remove(path, state, rhythm, clock))
                continue;
            removed = true;
            remark($"The lock {path} was left over ({state.Holder?.ToString() ?? "of an unknown process"}, which has ended) and was removed.");
        }

        return removed;
    }
}
