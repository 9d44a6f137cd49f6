namespace BosFlow.Cli.Forecasting;

/// <summary>The disk that a folder is or will be on.</summary>
/// <param name="MountPoint">Where it is mounted.</param>
/// <param name="FreeBytes">Room that this user may still fill.</param>
/// <param name="Format">Name of its file system, as the system calls it.</param>
internal sealed record Disk(string MountPoint, long FreeBytes, string Format)
{
    /// <summary>Finds the disk of a folder.</summary>
    /// <param name="folder">Absolute path; need not exist.</param>
    public static Disk Of(string folder)
    {
        string existing = folder;
        while (!Directory.Exists(existing) && Path.GetDirectoryName(existing) is { } parent)
            existing = parent;
        string mount = DriveInfo.GetDrives().Select(drive => drive.Name)
            .Where(name => name == "/" || existing == name || existing.StartsWith(name.TrimEnd('/') + "/", StringComparison.Ordinal))
            .MaxBy(name => name.Length) ?? existing;
        var there = new DriveInfo(existing);
        return new Disk(mount, there.AvailableFreeSpace, new DriveInfo(mount).DriveFormat);
    }
}
