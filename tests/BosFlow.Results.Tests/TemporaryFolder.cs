namespace BosFlow.Results.Tests;

/// <summary>A folder of a test's own, with a space and a non-ASCII letter in its name, gone afterwards.</summary>
public sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("bosflow Messung ä ").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
