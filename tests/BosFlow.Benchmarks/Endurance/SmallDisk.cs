using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>A small disk in memory (tmpfs) that can be filled and emptied; unmounted at the end.</summary>
internal sealed class SmallDisk : IDisposable
{
    private const string BallastName = "ballast.bin";

    private SmallDisk(string root) => Root = root;

    /// <summary>Absolute path of its root folder.</summary>
    public string Root { get; }

    /// <summary>Mounts a disk on a folder.</summary>
    /// <param name="folder">The folder; it is made.</param>
    /// <param name="megabytes">Its size, 2^20 bytes.</param>
    /// <returns>Null where this user may not mount.</returns>
    public static SmallDisk? TryMount(string folder, int megabytes)
    {
        Directory.CreateDirectory(folder);
        ProcessResult mounted = ProcessRunner.RunAsync("mount", ["-t", "tmpfs", "-o", $"size={megabytes}m", "tmpfs", folder]).GetAwaiter().GetResult();
        return mounted.ExitCode == 0 ? new SmallDisk(folder) : null;
    }

    /// <summary>Takes up the room on the disk.</summary>
    /// <param name="leave">Bytes that stay free, at least.</param>
    public void Fill(long leave)
    {
        using var ballast = new FileStream(Path.Combine(Root, BallastName), FileMode.Create, FileAccess.Write, FileShare.None, bufferSize: 0);
        byte[] page = new byte[4096];
        try
        {
            while (new DriveInfo(Root).AvailableFreeSpace >= leave + page.Length)
                ballast.Write(page);
        }
        catch (IOException)
        {
            // The run took the last page: full is full.
        }
    }

    /// <summary>Gives the room back.</summary>
    public void MakeSpace() => File.Delete(Path.Combine(Root, BallastName));

    public void Dispose() => ProcessRunner.RunAsync("umount", [Root]).GetAwaiter().GetResult().EnsureSuccess();
}
