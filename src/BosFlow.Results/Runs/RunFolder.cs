using BosFlow.Density;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.Files;
using BosFlow.Results.Maps;
using BosFlow.Results.NetCdf;
using BosFlow.Results.Report;

namespace BosFlow.Results.Runs;

/// <summary>
/// The folder of a run: a file a frame, whose presence is the frame's completion, then the summary. A killed run goes on
/// from what is there; several processes may work in one folder at the same time, each on frames of its own.
/// </summary>
/// <remarks>Everything but run.json, timing.csv and log.txt is the same, byte for byte, on every run of the same case.</remarks>
public sealed class RunFolder : IRunStore
{
    private readonly RunLayout layout;
    private readonly TimingJournal journal;
    private readonly TimeProvider clock;
    private RunDocument document;

    private RunFolder(RunLayout layout, RunDocument document, TimeProvider clock)
    {
        this.layout = layout;
        this.document = document;
        this.clock = clock;
        journal = new TimingJournal(layout.Timing);
    }

    /// <summary>The folder.</summary>
    public string Path => layout.Root;

    /// <summary>The report's page.</summary>
    public string ReportPath => layout.Report;

    /// <summary>The program's log, which the caller writes.</summary>
    public string LogPath => layout.Log;

    /// <summary>Where the results come from.</summary>
    public RunDocument Document => document;

    /// <summary>Frame files that were found damaged or of another run when <see cref="FinishedFrames"/> looked, one sentence each; those frames count as not finished.</summary>
    public IReadOnlyList<string> DamagedFrames { get; private set; } = [];

    /// <summary>Opens a folder for a run: makes it, or goes on in it where it holds the same run.</summary>
    /// <param name="path">The folder; made where it does not exist.</param>
    /// <param name="identity">What the run's results depend on.</param>
    /// <param name="restart">Whether what the folder holds of an earlier run is deleted first. Never deletes anything this program did not write.</param>
    /// <param name="clock">Clock for run.json.</param>
    /// <exception cref="InputDataException">The folder holds another run (named with what differs), or files of something else, or cannot be written.</exception>
    public static RunFolder Open(string path, RunIdentity identity, bool restart, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(identity);
        ArgumentNullException.ThrowIfNull(clock);
        var layout = new RunLayout(System.IO.Path.GetFullPath(path));
        try
        {
            RunDocument? earlier = RunFolderRules.Earlier(layout, identity, restart);
            if (restart)
                layout.DeleteResults();
            layout.MakeFolders();
            RunDocument document = (restart ? null : earlier) ?? new RunDocument
            {
                State = "running",
                StartedUtc = clock.GetUtcNow(),
                IdentitySha256 = identity.Sha256(),
                KnifeEdgeDegrees = identity.Case.KnifeEdgeDegrees,
                Identity = identity,
            };
            document = document with { State = "running", FinishedUtc = null };
            AtomicFile.WriteText(layout.Document, document.ToText());
            return new RunFolder(layout, document, clock);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"The output folder {path} cannot be written ({e.Message}); check its permissions and the free space, or choose another.", e);
        }
    }

    /// <summary>Says whether a run may use a folder, as <see cref="Open"/> would, and writes nothing.</summary>
    /// <param name="path">The folder; need not exist.</param>
    /// <param name="identity">What the run's results depend on.</param>
    /// <param name="restart">Whether what the folder holds of an earlier run would be deleted first.</param>
    /// <returns>Whether the folder holds this very run already, finished or not.</returns>
    /// <exception cref="InputDataException">The folder holds another run (named with what differs), or files of something else.</exception>
    public static bool Check(string path, RunIdentity identity, bool restart)
    {
        ArgumentNullException.ThrowIfNull(identity);
        return RunFolderRules.Earlier(new RunLayout(System.IO.Path.GetFullPath(path)), identity, restart) is not null && !restart;
    }

    /// <summary>Reads back the summary of a finished run, for maps and pages made again.</summary>
    /// <param name="path">The folder of the run.</param>
    /// <exception cref="InputDataException">The folder holds no finished run, or a file of it is damaged.</exception>
    public static RunSummary ReadSummary(string path)
    {
        var layout = new RunLayout(System.IO.Path.GetFullPath(path));
        if (!File.Exists(layout.Document))
            throw new InputDataException($"{path} is not the folder of a run: it has no run.json.");
        RunDocument document = RunDocument.Read(layout.Document);
        if (!File.Exists(layout.Summary))
            throw new InputDataException($"The run in {path} has no summary yet; finish it with the command run.");
        return RunSummaryReader.Read(layout, document);
    }

    /// <summary>Draws the maps and writes the report of a finished run again, from its summary alone.</summary>
    /// <param name="path">The folder of the run.</param>
    /// <param name="knifeEdgeDegrees">Another angle for the knife-edge view, degrees counter-clockwise; null keeps the run's.</param>
    /// <param name="cancellationToken">Stops between two pictures; what is written so far stays.</param>
    /// <returns>The report's page.</returns>
    /// <exception cref="InputDataException">The folder holds no finished run, or a file of it is damaged.</exception>
    public static string Render(string path, double? knifeEdgeDegrees, CancellationToken cancellationToken)
    {
        RunSummary summary = ReadSummary(path);
        var layout = new RunLayout(System.IO.Path.GetFullPath(path));
        if (knifeEdgeDegrees is { } angle)
            summary = summary with { Case = summary.Case with { KnifeEdgeDegrees = angle } };
        Directory.CreateDirectory(layout.MapsFolder);
        WritePictures(layout, summary, RunDocument.Read(layout.Document).Identity, cancellationToken);
        return layout.Report;
    }

    /// <inheritdoc/>
    public IReadOnlySet<int> FinishedFrames()
    {
        (HashSet<int> finished, List<string> damaged) = FrameInventory.Take(layout, document.IdentitySha256);
        DamagedFrames = damaged;
        return finished;
    }

    /// <inheritdoc/>
    public void WriteFrame(FrameResult result, double processingSeconds)
    {
        ArgumentNullException.ThrowIfNull(result);
        NetCdfFile.Write(layout.Frame(result.Index), FrameFile.ToContent(result, document.Identity.Scale, document.IdentitySha256));
        journal.Append(result.Index, processingSeconds);
    }

    /// <inheritdoc/>
    public FrameResult ReadFrame(int index) => FrameFile.FromContent(NetCdfFile.Read(layout.Frame(index)));

    /// <inheritdoc/>
    public void WriteSummary(RunSummary summary)
    {
        ArgumentNullException.ThrowIfNull(summary);
        Reference reference = summary.Reference;
        GrayImage picture = reference.Image;
        NetCdfFile.Write(layout.Reference, ReferenceFile.ToContent(picture, reference.Description, document.IdentitySha256));
        NetCdfFile.Write(layout.Summary, SummaryFile.ToContent(summary, document.IdentitySha256));
        AtomicFile.WriteText(layout.FramesTable, FramesTable.ToText(summary.Frames, picture.Width, picture.Height));
        WriteProfiles(summary.Density?.Profiles ?? []);
        WritePictures(layout, summary, document.Identity, CancellationToken.None);
        document = document with
        {
            State = "complete",
            FinishedUtc = clock.GetUtcNow(),
            FramesAsked = summary.Frames.Count,
            FramesMeasured = summary.Frames.Count(f => f.Failure is null),
            FramesFailed = [.. summary.Frames.Where(f => f.Failure is not null).Select(f => f.Index)],
            Reference = reference.Description,
            ReferenceFrames = reference.FrameCount,
            ReferenceWarnings = reference.Warnings,
            FootageWarnings = summary.Footage.Warnings,
            Warnings = summary.Warnings,
            Density = DensityDocument.Of(summary.Density),
            KnifeEdgeDegrees = summary.Case.KnifeEdgeDegrees,
        };
        AtomicFile.WriteText(layout.Document, document.ToText());
    }

    // A summary over other frames may have left profiles that this one cannot give.
    private void WriteProfiles(IReadOnlyList<RadialProfile> profiles)
    {
        if (profiles.Count > 0)
            AtomicFile.WriteText(layout.Profiles, ProfilesTable.ToText(profiles));
        else
            File.Delete(layout.Profiles);
    }

    private static void WritePictures(RunLayout layout, RunSummary summary, RunIdentity identity, CancellationToken cancellationToken)
    {
        IReadOnlyList<RunPicture> pictures = RunPictures.Of(summary, cancellationToken);
        layout.DeleteMapsOfDensityBut([.. pictures.Select(p => p.FileName)]);
        foreach (RunPicture map in pictures)
            AtomicFile.WriteBytes(layout.Map(map.FileName), map.Png);
        AtomicFile.WriteText(layout.Report, ReportWriter.ToHtml(summary, identity, pictures));
    }
}
