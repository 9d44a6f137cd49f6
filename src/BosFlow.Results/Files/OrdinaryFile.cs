namespace BosFlow.Results.Files;

/// <summary>Tells files that hold something from pipes and devices, before one is opened: opening a pipe waits for a writer, and a device may never end.</summary>
public static class OrdinaryFile
{
    /// <summary>Whether a path is a file with a length, itself or through links. The system states the length 0 for pipes and devices.</summary>
    /// <param name="path">The file; must exist.</param>
    public static bool HoldsBytes(string path)
    {
        FileSystemInfo file = File.ResolveLinkTarget(path, returnFinalTarget: true) ?? new FileInfo(path);
        return file is FileInfo { Exists: true, Length: > 0 };
    }

    /// <summary>Refuses what holds nothing; a path that does not exist is left to whoever opens it.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It is empty, a pipe or a device.</exception>
    public static void Require(string path)
    {
        if (File.Exists(path) && !HoldsBytes(path))
            throw new IOException("it is empty, a pipe or a device");
    }
}
