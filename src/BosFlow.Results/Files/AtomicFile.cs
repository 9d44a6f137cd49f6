using System.Globalization;

namespace BosFlow.Results.Files;

/// <summary>Writes files that are there whole or not at all.</summary>
public static class AtomicFile
{
    private const string Ending = ".part";

    // Thread, machine and process keep apart who write the same file at the same time.
    private static string OwnSuffix => $".{Environment.CurrentManagedThreadId}.{Environment.MachineName}-{Environment.ProcessId}{Ending}";

    /// <summary>Writes text unless the file is there already; of several writers at the same time, one succeeds.</summary>
    /// <param name="path">Where the file shall be; its folder must exist.</param>
    /// <param name="text">The whole content, UTF-8 without a byte-order mark.</param>
    /// <returns>Whether this call made the file.</returns>
    public static bool CreateText(string path, string text) => Create(path, stream => stream.Write(System.Text.Encoding.UTF8.GetBytes(text)));

    /// <summary>Writes a file unless it is there already; of several writers at the same time, one succeeds.</summary>
    /// <param name="path">Where the file shall be; its folder must exist.</param>
    /// <param name="write">Writes the content to the stream it is given.</param>
    /// <returns>Whether this call made the file.</returns>
    public static bool Create(string path, Action<Stream> write)
    {
        string temporary = TemporaryName(path);
        try
        {
            Write(temporary, write);
            switch (HardLink.TryGive(temporary, path))
            {
                case false:
                    return false;
                case null:
                    File.Move(temporary, path, overwrite: false);
                    break;
            }

            FolderFlush.Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
            return true;
        }
        catch (IOException) when (File.Exists(path))
        {
            return false;
        }
        finally
        {
            File.Delete(temporary);
        }
    }

    /// <summary>Writes to a temporary name beside the target, flushes to the disk, then renames over the target.</summary>
    /// <param name="path">Where the file shall be; its folder must exist.</param>
    /// <param name="write">Writes the content to the stream it is given; an exception leaves nothing behind.</param>
    /// <exception cref="IOException">The disk is full or not writable.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(write);
        string temporary = TemporaryName(path);
        try
        {
            using (var stream = new FileStream(temporary, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                write(stream);
                stream.Flush(flushToDisk: true);
            }

            File.Move(temporary, path, overwrite: true);
            FolderFlush.Flush(Path.GetDirectoryName(Path.GetFullPath(path))!);
        }
        catch
        {
            File.Delete(temporary);
            throw;
        }
    }

    /// <summary>Name under which this process writes a file until it is whole.</summary>
    internal static string TemporaryName(string path) => $"{path}{OwnSuffix}";

    /// <summary>Removes what processes left behind when they were killed while writing.</summary>
    /// <param name="folder">Folder to look through, without its subfolders.</param>
    /// <param name="ofAnyMachine">Whether those of other machines go too; only where none of them can be at work.</param>
    public static void RemoveLeftovers(string folder, bool ofAnyMachine)
    {
        string own = $".{Environment.MachineName}-";
        foreach (string path in Directory.EnumerateFiles(folder, "*" + Ending))
        {
            string name = path[..^Ending.Length];
            int at = name.LastIndexOf(own, StringComparison.Ordinal);
            bool ours = at >= 0;
            if (!ours && ofAnyMachine && LooksTemporary(name))
                File.Delete(path);
            else if (ours && int.TryParse(name[(at + own.Length)..], CultureInfo.InvariantCulture, out int process) && !IsRunning(process))
                File.Delete(path);
        }
    }

    // NAME.ENDING.MACHINE-PROCESS: nothing else of somebody's own is taken for one of ours.
    private static bool LooksTemporary(string name) =>
        name.LastIndexOf('-') is var dash and > 0 && name[(dash + 1)..].All(char.IsAsciiDigit) && dash < name.Length - 1 && name[..dash].Contains('.', StringComparison.Ordinal);

    private static bool IsRunning(int process)
    {
        try
        {
            using var running = System.Diagnostics.Process.GetProcessById(process);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    /// <summary>Writes bytes that are already complete.</summary>
    /// <param name="path">Where the file shall be; its folder must exist.</param>
    /// <param name="bytes">The whole content.</param>
    public static void WriteBytes(string path, ReadOnlyMemory<byte> bytes) => Write(path, stream => stream.Write(bytes.Span));

    /// <summary>Writes text as UTF-8 without a byte-order mark.</summary>
    /// <param name="path">Where the file shall be; its folder must exist.</param>
    /// <param name="text">The whole content.</param>
    public static void WriteText(string path, string text) => WriteBytes(path, System.Text.Encoding.UTF8.GetBytes(text));
}
