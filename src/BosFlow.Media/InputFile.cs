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
            Stream stream = open(path);
            if (stream.Length > 0)
                return stream;
            stream.Dispose();
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

        throw new InputDataException($"{name} is empty (0 bytes): copy it again from the camera or leave it out.");
    }
}
