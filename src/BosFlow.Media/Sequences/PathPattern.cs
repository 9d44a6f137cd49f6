using System.IO.Enumeration;
using BosFlow.Footage;

namespace BosFlow.Media.Sequences;

/// <summary>Finds the files that a path or a pattern with * and ? names.</summary>
internal static class PathPattern
{
    private static readonly char[] Wildcards = ['*', '?'];

    /// <summary>The files of a path or pattern, in natural order.</summary>
    /// <param name="pattern">A path, or a pattern in which * stands for any letters and ? for one, in file and folder names; relative to the base folder.</param>
    /// <param name="baseFolder">Folder that relative paths start from.</param>
    /// <returns>Absolute paths; the path itself, existing or not, where it has no wildcard or names an existing file.</returns>
    /// <exception cref="InputDataException">The pattern matches nothing, or its folder does not exist.</exception>
    internal static IReadOnlyList<string> Find(string pattern, string baseFolder)
    {
        string full = Path.GetFullPath(pattern, baseFolder);
        if (pattern.IndexOfAny(Wildcards) < 0 || File.Exists(full))
            return [full];
        string root = Path.GetPathRoot(full)!;
        string[] parts = full[root.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries);
        IEnumerable<string> folders = [root];
        foreach (string part in parts[..^1])
            folders = folders.SelectMany(folder => Step(folder, part, pattern)).ToList();
        List<string> files = [.. folders.SelectMany(folder => Matches(folder, parts[^1], pattern, files: true))];
        if (files.Count == 0)
            throw NoMatch(pattern, baseFolder, Path.Combine([root, .. parts[..^1].TakeWhile(static part => part.IndexOfAny(Wildcards) < 0)]));
        files.Sort(NaturalOrder.Instance);
        return files;
    }

    private static List<string> Step(string folder, string part, string pattern) =>
        part.IndexOfAny(Wildcards) < 0 ? [Path.Combine(folder, part)] : Matches(folder, part, pattern, files: false);

    // As in a shell, a wildcard does not match names that begin with a dot (shadow files of other systems, caches).
    private static List<string> Matches(string folder, string part, string pattern, bool files)
    {
        // Of several folders that a wildcard found, not each need have the next one.
        if (!Directory.Exists(folder))
            return [];
        try
        {
            IEnumerable<string> entries = files ? Directory.EnumerateFiles(folder) : Directory.EnumerateDirectories(folder);
            return [.. entries.Where(entry => Fits(Path.GetFileName(entry), part))];
        }
        catch (UnauthorizedAccessException failure)
        {
            throw new InputDataException($"The folder {folder} may not be read: give yourself permission to list it (chmod u+rx).", failure);
        }
    }

    private static InputDataException NoMatch(string pattern, string baseFolder, string fixedFolder) => Directory.Exists(fixedFolder)
        ? new InputDataException($"The pattern {pattern} matches no file in {baseFolder}: check the folder and the ending (upper and lower case count).")
        : new InputDataException($"The pattern {pattern} names the folder {fixedFolder}, which does not exist: check the path, which is relative to the case file's folder.");

    private static bool Fits(string name, string part) =>
        (part[0] == '.' || name[0] != '.') && FileSystemName.MatchesSimpleExpression(part, name, ignoreCase: false);
}
