namespace BosFlow.Media;

/// <summary>Opens files that a person named, and says in one sentence why one cannot be opened.</summary>
internal static class InputFile
{
    /// <summary>Opens a file for reading.</summary>
    /// <param name="path">Absolute path.</param>
    /// <param name="name">How messages call the file.</param>
    /// <exception cref="InputDataException">The file is missing, empty, a folder, or may not be read.</exception>
    internal static Stream Open(string path, string name) =>
        Open(path, name, static file => new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read));

    /// <summary>The same with the way to open as a parameter, so that tests can refuse permission to root as well.</summary>
    internal static Stream Open(string path, string name, Func<string, Stream> open)
    {
        if (Directory.Exists(path))
            throw new InputDataException($"{name} is a folder, not a file: write a pattern such as {Path.Combine(name, "*.png")}.");
        try
        {
            if (!File.Exists(path) || HoldsBytes(path))
                return open(path);
        }
        catch (Exception failure) when (failure is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new InputDataException($"{name} does not exist: check the path, which is relative to the case file's folder.", failure);
        }
        catch (UnauthorizedAccessException failure)
        {
            throw new InputDataException($"{name} may not be read: give yourself permission to read it (chmod u+r).", failure);
        }
        catch (IOException failure)
        {
            throw new InputDataException($"{name} cannot be read: {failure.Message}", failure);
        }

        throw new InputDataException($"{name} is empty (0 bytes), a pipe or a device: copy it again from the camera or leave it out.");
    }

    // Looked at before it is opened: opening a pipe waits for a writer, and the system states the length 0 for pipes and devices.
    private static bool HoldsBytes(string path)
    {
        FileSystemInfo file = File.ResolveLinkTarget(path, returnFinalTarget: true) ?? new FileInfo(path);
        return file is FileInfo { Exists: true, Length: > 0 };
    }
}
