using BosFlow.TestKit;

namespace BosFlow.Media.Tests;

internal static class TemporaryFolderExtensions
{
    /// <summary>Writes a file of bytes and gives its absolute path.</summary>
    internal static string Write(this TemporaryFolder folder, string name, byte[] bytes)
    {
        string path = folder.PathOf(name);
        File.WriteAllBytes(path, bytes);
        return path;
    }
}
