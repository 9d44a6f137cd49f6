namespace BosFlow.Results.Files;

/// <summary>Several files that are there all or not at all: written under temporary names, renamed together at the end.</summary>
/// <remarks>A machine that stops between two of the renames leaves some old and some new files; each of them is whole.</remarks>
public sealed class FileSet : IDisposable
{
    private readonly List<(string Temporary, string Path)> written = [];

    /// <summary>Writes a file under a temporary name and flushes it to the disk.</summary>
    /// <param name="path">Where it shall be at the end; its folder must exist.</param>
    /// <param name="write">Writes the content to the stream it is given.</param>
    /// <exception cref="IOException">The disk is full or not writable.</exception>
    public void Write(string path, Action<Stream> write)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(write);
        string temporary = AtomicFile.TemporaryName(path);
        written.Add((temporary, path));
        using var stream = new FileStream(temporary, FileMode.Create, FileAccess.Write, FileShare.None);
        write(stream);
        stream.Flush(flushToDisk: true);
    }

    /// <summary>Gives all files their names; files that were there are replaced.</summary>
    public void Commit()
    {
        foreach ((string temporary, string path) in written)
            File.Move(temporary, path, overwrite: true);
        foreach (string folder in written.Select(file => Path.GetDirectoryName(Path.GetFullPath(file.Path))!).Distinct())
            FolderFlush.Flush(folder);
        written.Clear();
    }

    /// <summary>Deletes what was not committed.</summary>
    public void Dispose()
    {
        foreach ((string temporary, _) in written)
            File.Delete(temporary);
        written.Clear();
    }
}
