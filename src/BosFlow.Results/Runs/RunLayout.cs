using System.Globalization;
using BosFlow.Pipeline;
using BosFlow.Results.Files;

namespace BosFlow.Results.Runs;

/// <summary>Where each file of a run lies.</summary>
/// <param name="Root">The folder, absolute.</param>
internal sealed record RunLayout(string Root)
{
    public string Document => Path.Combine(Root, "run.json");

    public string FramesFolder => Path.Combine(Root, "frames");

    public string FramesTable => Path.Combine(Root, "frames.csv");

    public string Summary => Path.Combine(Root, "summary.nc");

    public string Reference => Path.Combine(Root, "reference.nc");

    public string MapsFolder => Path.Combine(Root, "maps");

    public string Profiles => Path.Combine(Root, "profiles.csv");

    public string Report => Path.Combine(Root, "report.html");

    public string Timing => Path.Combine(Root, "timing.csv");

    public string Log => Path.Combine(Root, "log.txt");

    /// <summary>Lock of a process that works on the run as a whole.</summary>
    public string Lock => Path.Combine(Root, "run.lock");

    /// <summary>Folder of what each shard keeps for itself: lock, log and timing.</summary>
    public string ShardsFolder => Path.Combine(Root, "shards");

    public string Frame(int index) => Path.Combine(FramesFolder, FrameFile.Name(index));

    public string Map(string fileName) => Path.Combine(MapsFolder, fileName);

    public string ShardFile(Shard shard, string ending) =>
        Path.Combine(ShardsFolder, FormattableString.Invariant($"{shard.Number}-of-{shard.Count}{ending}"));

    /// <summary>The locks of all shards that there are, in order.</summary>
    public IReadOnlyList<string> ShardLocks() =>
        Directory.Exists(ShardsFolder) ? [.. Directory.EnumerateFiles(ShardsFolder, "*-of-*.lock").Order(StringComparer.Ordinal)] : [];

    /// <summary>The numbers of shards of all splits that ever began here, as their logs tell, ascending.</summary>
    public IReadOnlyList<int> SplitsSeen() => !Directory.Exists(ShardsFolder) ? [] :
    [
        .. Directory.EnumerateFiles(ShardsFolder, "*-of-*.log.txt")
            .Select(file => Path.GetFileName(file).Split("-of-")[1][..^".log.txt".Length])
            .Where(count => int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out _))
            .Select(count => int.Parse(count, CultureInfo.InvariantCulture)).Distinct().Order(),
    ];

    public void MakeFolders()
    {
        Directory.CreateDirectory(FramesFolder);
        Directory.CreateDirectory(MapsFolder);
    }

    /// <summary>Removes what killed processes left half-written.</summary>
    /// <param name="ofAnyMachine">Whether nobody else can be at work here, so that every such file is left over.</param>
    public void RemoveLeftovers(bool ofAnyMachine)
    {
        foreach (string folder in new[] { Root, FramesFolder, MapsFolder, ShardsFolder }.Where(Directory.Exists))
            AtomicFile.RemoveLeftovers(folder, ofAnyMachine);
    }

    /// <summary>Deletes the results of an earlier run, by name; run.json and anything else in the folder stays.</summary>
    public void DeleteResults()
    {
        foreach (string file in new[] { Summary, Reference, FramesTable, Profiles, Report, Timing })
            File.Delete(file);
        Delete(FramesFolder, "*.nc");
        Delete(MapsFolder, "*.png");
        Delete(ShardsFolder, "*-of-*.log.txt");
        Delete(ShardsFolder, "*-of-*.timing.csv");
    }

    /// <summary>Deletes maps of density and temperature that a later summary does not give any more, so that none is taken for its result.</summary>
    public void DeleteMapsOfDensityBut(IReadOnlyCollection<string> drawn)
    {
        foreach (string pattern in new[] { "density*.png", "temperature*.png", "integration_residual.png", "uncertainty_budget.png" })
        {
            foreach (string file in Directory.EnumerateFiles(MapsFolder, pattern).Where(f => !drawn.Contains(Path.GetFileName(f))))
                File.Delete(file);
        }
    }

    private static void Delete(string folder, string pattern)
    {
        if (!Directory.Exists(folder))
            return;
        foreach (string file in Directory.EnumerateFiles(folder, pattern))
            File.Delete(file);
    }
}
