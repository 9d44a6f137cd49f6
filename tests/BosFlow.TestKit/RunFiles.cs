using System.Security.Cryptography;

namespace BosFlow.TestKit;

/// <summary>The files of a run folder that must be the same, byte for byte, on every run of the same case.</summary>
public static class RunFiles
{
    // Times, the machine and what happened on the way: they tell of one run and differ by right.
    private static readonly string[] OfOneRun = ["run.json", "run.lock", "log", "timing", "shards"];

    /// <summary>SHA-256 of every such file, a leftover of an interrupted writing included, by its path relative to the folder.</summary>
    /// <param name="folder">The run folder.</param>
    public static IReadOnlyDictionary<string, string> Hashes(string folder) => Directory
        .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
        .Select(path => (Path: path, Name: Path.GetRelativePath(folder, path)))
        .Where(file => !OfOneRun.Any(name => file.Name.StartsWith(name, StringComparison.Ordinal)))
        .ToDictionary(file => file.Name, file => Hash(file.Path));

    /// <summary>The files that are missing, too many or of other bytes; none where two runs are equal.</summary>
    /// <param name="expected">Hashes of one run.</param>
    /// <param name="actual">Hashes of the other.</param>
    public static IReadOnlyList<string> Differences(IReadOnlyDictionary<string, string> expected, IReadOnlyDictionary<string, string> actual)
    {
        ArgumentNullException.ThrowIfNull(expected);
        ArgumentNullException.ThrowIfNull(actual);
        return [.. expected.Keys.Union(actual.Keys).Where(name => expected.GetValueOrDefault(name) != actual.GetValueOrDefault(name)).Order(StringComparer.Ordinal)];
    }

    private static string Hash(string path)
    {
        using FileStream file = File.OpenRead(path);
        return Convert.ToHexString(SHA256.HashData(file));
    }
}
