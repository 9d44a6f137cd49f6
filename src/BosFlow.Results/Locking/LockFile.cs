using System.Globalization;
using System.Text;
using System.Text.Json;

namespace BosFlow.Results.Locking;

/// <summary>
/// A lock that is a file: whoever creates it holds it, on local disks and on shared ones alike, for the file system lets
/// only one of several succeed. The holder writes a counter into it every few seconds and deletes it at the end.
/// </summary>
internal sealed class LockFile : IDisposable
{
    private const int FileExists = 17; // EEXIST

    private readonly string path;
    private readonly string head;
    private readonly Lock gate = new();
    private readonly CancellationTokenSource lost = new();
    private readonly ITimer timer;
    private long beats;
    private bool released;

    private LockFile(string path, string head, LockRhythm rhythm, TimeProvider clock)
    {
        this.path = path;
        this.head = head;
        timer = clock.CreateTimer(_ => Beat(), null, rhythm.Beat, rhythm.Beat);
        // Environment.Exit runs no "using"; a lock it leaves would be recognised, but with a warning that tells the user nothing.
        AppDomain.CurrentDomain.ProcessExit += OnExit;
    }

    /// <summary>Cancelled when the lock turns out to be somebody else's, or gone.</summary>
    public CancellationToken Lost => lost.Token;

    /// <summary>Creates the lock.</summary>
    /// <returns>The lock; null where somebody else has created it.</returns>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public static LockFile? TryCreate(string path, LockHolder holder, LockRhythm rhythm, TimeProvider clock)
    {
        string head = JsonSerializer.Serialize(holder) + "\n";
        FileStream stream;
        try
        {
            stream = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete);
        }
        // The number counts: the file may be gone again by the time one looks for it.
        catch (IOException exception) when (exception.HResult == FileExists || File.Exists(path))
        {
            return null;
        }

        try
        {
            using (stream)
                stream.Write(Encoding.UTF8.GetBytes(head + Counter(0)));
        }
        catch
        {
            File.Delete(path);
            throw;
        }

        return new LockFile(path, head, rhythm, clock);
    }

    /// <summary>Removes a lock that was found left over, unless it has changed meanwhile or somebody else is removing it.</summary>
    /// <param name="path">File of the lock.</param>
    /// <param name="found">What it said when it was judged.</param>
    /// <param name="rhythm">Times.</param>
    /// <param name="clock">Clock for messages.</param>
    /// <returns>Whether this call removed it.</returns>
    public static bool Remove(string path, LockState found, LockRhythm rhythm, TimeProvider clock)
    {
        // One at a time: else the second of two that found the same lock would remove what the first has put in its place.
        string guard = GuardOf(path);
        using LockFile? own = TryCreate(guard, LockHolder.ThisProcess("removing a lock", clock), rhythm, clock);
        if (own is null)
        {
            if (LockState.Read(guard)?.Holder is { IsOfThisMachine: true, IsRunning: false })
                File.Delete(guard);
            return false;
        }

        if (LockState.Read(path) is not { } now || now.Text != found.Text)
            return false;
        File.Delete(path);
        return true;
    }

    /// <summary>The file that is there while a lock is being removed.</summary>
    public static string GuardOf(string path) => path + ".removal";

    /// <inheritdoc/>
    public void Dispose()
    {
        AppDomain.CurrentDomain.ProcessExit -= OnExit;
        timer.Dispose();
        Release();
        lock (gate)
            lost.Dispose();
    }

    private static string Counter(long beats) => beats.ToString("D12", CultureInfo.InvariantCulture) + "\n";

    private void OnExit(object? sender, EventArgs e) => Release();

    private void Release()
    {
        lock (gate)
        {
            if (released)
                return;
            released = true;
            try
            {
                if (IsOurs())
                    File.Delete(path);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // The folder is gone or may not be written any more; the lock is recognised as left over.
            }
        }
    }

    private void Beat()
    {
        bool gone;
        lock (gate)
        {
            if (released)
                return;
            try
            {
                gone = !IsOurs();
                if (!gone)
                    WriteCounter();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // A disk that does not answer for a moment; the next beat tries again.
                return;
            }

            // Within the gate, so that the source is not disposed of meanwhile.
            released = gone;
            if (gone)
                lost.Cancel();
        }
    }

    private bool IsOurs() => LockState.Read(path)?.Text.StartsWith(head, StringComparison.Ordinal) == true;

    // Written over the old count: needs no new space on a full disk.
    private void WriteCounter()
    {
        using var stream = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete);
        stream.Position = Encoding.UTF8.GetByteCount(head);
        stream.Write(Encoding.UTF8.GetBytes(Counter(++beats)));
    }
}
