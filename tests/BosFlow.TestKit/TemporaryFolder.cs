namespace BosFlow.TestKit;

/// <summary>
/// A new empty folder that is deleted with everything in it at the end of a test. Its name has a space and letters
/// outside ASCII, so that every test that uses files also tests such paths.
/// </summary>
public sealed class TemporaryFolder : IDisposable
{
    /// <summary>Makes the folder.</summary>
    public TemporaryFolder()
    {
        Root = Directory.CreateTempSubdirectory("bosflow prüf Ω ").FullName;
    }

    /// <summary>Absolute path of the folder.</summary>
    public string Root { get; }

    /// <summary>Absolute path of something in the folder; the folders above it are made.</summary>
    /// <param name="parts">Folders and file, relative to the folder.</param>
    /// <returns>The path; the last part is not created.</returns>
    public string PathOf(params string[] parts)
    {
        string path = Path.Combine([Root, .. parts]);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        return path;
    }

    /// <summary>Writes a text file (UTF-8, no byte-order mark).</summary>
    /// <param name="relativePath">Path relative to the folder.</param>
    /// <param name="text">The whole content.</param>
    /// <returns>Absolute path of the file.</returns>
    public string Write(string relativePath, string text)
    {
        string path = PathOf(relativePath);
        File.WriteAllText(path, text);
        return path;
    }

    /// <summary>Deletes the folder and everything in it.</summary>
    public void Dispose()
    {
        if (Directory.Exists(Root))
            Directory.Delete(Root, recursive: true);
    }
}
