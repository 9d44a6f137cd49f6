using System.Text.Json;

namespace BosFlow.Results.Locking;

/// <summary>What a lock's file says at one moment.</summary>
/// <param name="Holder">Who holds it; null where the file does not say (it is being written, or damaged).</param>
/// <param name="Text">The whole file; a holder that lives changes it from time to time.</param>
internal sealed record LockState(LockHolder? Holder, string Text)
{
    /// <summary>Reads a lock; null where there is none.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static LockState? Read(string path)
    {
        string text;
        try
        {
            // Opened anew for every look: a network file system then asks its server for what is new.
            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            using var reader = new StreamReader(stream);
            text = reader.ReadToEnd();
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }

        return new LockState(HolderIn(text), text);
    }

    private static LockHolder? HolderIn(string text)
    {
        try
        {
            return JsonSerializer.Deserialize<LockHolder>(text.Split('\n')[0]) is { Work: not null, Host: not null, ProcessStart: not null, Machine: not null } holder ? holder : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
