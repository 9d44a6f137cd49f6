namespace BosFlow.Results.Runs;

/// <summary>Whether a run may use a folder.</summary>
internal static class RunFolderRules
{
    private const int DifferencesNamed = 5;

    /// <summary>The document of the same run that the folder already holds; null where the folder is free for this one.</summary>
    /// <exception cref="InputDataException">The folder may not be used.</exception>
    public static RunDocument? Earlier(RunLayout layout, RunIdentity identity, bool restart)
    {
        if (File.Exists(layout.Root))
            throw new InputDataException($"The output folder {layout.Root} is a file; choose another name.");
        if (!Directory.Exists(layout.Root))
            return null;
        RefuseLinks(layout);
        if (!File.Exists(layout.Document))
        {
            // A shard that started at the same moment writes run.json before anything else: what came meanwhile is of a run if run.json came too.
            string? foreign = Foreign(layout);
            if (!File.Exists(layout.Document))
            {
                return foreign is null
                    ? null
                    : throw new InputDataException($"The output folder {layout.Root} holds files that are not of a run (such as {foreign}); choose an empty or a new folder.");
            }
        }

        RunDocument earlier;
        try
        {
            earlier = RunDocument.Read(layout.Document);
        }
        catch (InputDataException) when (restart)
        {
            return null;
        }

        if (restart || earlier.IdentitySha256 == identity.Sha256())
            return earlier;
        throw new InputDataException(
            $"The output folder {layout.Root} holds the results of another run: {Listing(identity.DifferencesFrom(earlier.Identity))}. Choose another folder, or begin again in this one with --restart.");
    }

    /// <summary>Refuses a folder in which a name that a run writes to is a link: what is written there, or deleted by a restart, would lie elsewhere.</summary>
    /// <exception cref="InputDataException">Such a link was found.</exception>
    public static void RefuseLinks(RunLayout layout)
    {
        string[] written = [layout.FramesFolder, layout.MapsFolder, layout.ShardsFolder, layout.Timing, layout.Log, layout.Lock];
        string[] ofShards = Directory.Exists(layout.ShardsFolder) ? Directory.GetFiles(layout.ShardsFolder) : [];
        foreach (string path in written.Concat(ofShards.Order(StringComparer.Ordinal)))
        {
            if (new FileInfo(path).LinkTarget is { } target)
                throw new InputDataException($"{path} is a link to {target}, and a run writes nothing outside its own folder; remove the link, or choose another folder with --output.");
        }
    }

    private static string? Foreign(RunLayout layout) =>
        Directory.EnumerateFileSystemEntries(layout.Root).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal).FirstOrDefault(name => !IsOfABeginning(layout, name));

    // What a run that was killed in its first moments may leave.
    private static bool IsOfABeginning(RunLayout layout, string name) =>
        name == Path.GetFileName(layout.Log) || name == Path.GetFileName(layout.ShardsFolder) ||
        name.StartsWith(Path.GetFileName(layout.Lock), StringComparison.Ordinal) ||
        (name.StartsWith(Path.GetFileName(layout.Document), StringComparison.Ordinal) && name.EndsWith(".part", StringComparison.Ordinal));

    private static string Listing(IReadOnlyList<string> differences)
    {
        string named = string.Join("; ", differences.Take(DifferencesNamed));
        return differences.Count > DifferencesNamed ? $"{named}; and {differences.Count - DifferencesNamed} more differences" : named;
    }
}
