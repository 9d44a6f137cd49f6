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

    public string Frame(int index) => Path.Combine(FramesFolder, FrameFile.Name(index));

    public string Map(string fileName) => Path.Combine(MapsFolder, fileName);

    public void MakeFolders()
    {
        Directory.CreateDirectory(FramesFolder);
        Directory.CreateDirectory(MapsFolder);
        AtomicFile.RemoveLeftovers(Root);
        AtomicFile.RemoveLeftovers(FramesFolder);
        AtomicFile.RemoveLeftovers(MapsFolder);
    }

    /// <summary>Deletes the results of an earlier run, by name; anything else in the folder stays.</summary>
    public void DeleteResults()
    {
        if (!Directory.Exists(Root))
            return;
        // The document goes first: whatever happens meanwhile, half a deletion is never taken for a run.
        foreach (string file in new[] { Document, Summary, Reference, FramesTable, Profiles, Report, Timing })
            File.Delete(file);
        Delete(FramesFolder, "*.nc");
        Delete(MapsFolder, "*.png");
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
