using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests;

/// <summary>The C# files of the repository, without what a build makes.</summary>
internal static class SourceTree
{
    /// <summary>Files below a folder of the repository, absolute paths, sorted.</summary>
    /// <param name="folder">"src" or "tests".</param>
    public static IReadOnlyList<string> Files(string folder) =>
    [
        .. Directory.EnumerateFiles(Repository.PathOf(folder), "*.cs", SearchOption.AllDirectories)
            .Where(file => !Relative(file).Split('/').Any(part => part is "bin" or "obj"))
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>Path relative to the repository, for messages.</summary>
    public static string Relative(string file) => Path.GetRelativePath(Repository.Root, file);

    /// <summary>Fails with one line for each finding.</summary>
    public static void AssertNone(IEnumerable<string> findings)
    {
        string all = string.Join(Environment.NewLine, findings.Distinct().Order(StringComparer.Ordinal));
        Assert.True(all.Length == 0, all);
    }
}
