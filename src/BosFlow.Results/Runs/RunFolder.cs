using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Results.Files;
using BosFlow.Results.Locking;
using BosFlow.Results.Maps;
using BosFlow.Results.NetCdf;
using BosFlow.Results.Report;

namespace BosFlow.Results.Runs;

/// <summary>
/// The folder of a run: a file a frame, whose presence is the frame's completion, then the summary. A killed run goes on
/// from what is there. While it is open it holds a lock: one process works on the whole, or several on shards.
/// </summary>
/// <remarks>Everything but run.json, timing.csv, log.txt and the folder shards is the same, byte for byte, on every run of the same case.</remarks>
public sealed class RunFolder : IRunStore, IDisposable
{
    private readonly RunLayout layout;
    private readonly LockFile held;
    private readonly RunOpening opening;
    private readonly TimingJournal journal;
    private readonly TimeProvider clock;
    private readonly DiskRoom room;
    private RunDocument document;

    private RunFolder(RunLayout layout, LockFile held, RunOpening opening, RunDocument document, TimeProvider clock)
    {
        this.layout = layout;
        this.held = held;
        this.opening = opening;
        this.document = document;
        this.clock = clock;
        room = DiskRoom.Of(layout.Root);
        journal = new TimingJournal(opening.Part.Shard is { } shard ? layout.ShardFile(shard, ".timing.csv") : layout.Timing);
    }

    /// <summary>The folder.</summary>
    public string Path => layout.Root;

    /// <summary>The report's page.</summary>
    public string ReportPath => layout.Report;

    /// <summary>The program's log, which the caller writes: one for the run, one for each shard.</summary>
    public string LogPath => opening.Part.Shard is { } shard ? layout.ShardFile(shard, ".log.txt") : layout.Log;

    /// <summary>Where the results come from.</summary>
    public RunDocument Document => document;

    /// <summary>Cancelled when the folder's lock is lost: the folder was deleted, or another machine took this one for dead.</summary>
    public CancellationToken LockLost => held.Lost;

    /// <summary>Frame files that were found damaged or of another run when <see cref="FinishedFrames"/> looked, one sentence each; those frames count as not finished.</summary>
    public IReadOnlyList<string> DamagedFrames { get; private set; } = [];

    /// <summary>Opens a folder for a run: makes it, or goes on in it where it holds the same run.</summary>
    /// <param name="path">The folder; made where it does not exist, unless it is only to be gathered.</param>
    /// <param name="identity">What the run's results depend on.</param>
    /// <param name="opening">What for, and how.</param>
    /// <param name="clock">Clock for run.json.</param>
    /// <param name="cancellationToken">Stops waiting for a lock to show whether it is held.</param>
    /// <exception cref="InputDataException">The folder is in use, holds another run (named with what differs), or files of something else, or cannot be written.</exception>
    public static RunFolder Open(string path, RunIdentity identity, RunOpening opening, TimeProvider clock, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(identity);
        ArgumentNullException.ThrowIfNull(opening);
        ArgumentNullException.ThrowIfNull(clock);
        var layout = new RunLayout(System.IO.Path.GetFullPath(path));
        // Looked at before the first byte is written, and again once nobody else can change it.
        Check(layout, identity, opening);
        try
        {
            Directory.CreateDirectory(opening.Part.Shard is null ? layout.Root : layout.ShardsFolder);
            LockFile held = new RunLocks(layout, opening.Rhythm, clock, opening.Remark).Take(opening.Part.ToString(), opening.Part.Shard, cancellationToken);
            try
            {
                Check(layout, identity, opening);
                return new RunFolder(layout, held, opening, RunBeginning.Document(layout, identity, opening, clock), clock);
            }
            catch
            {
                held.Dispose();
                throw;
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"The output folder {path} cannot be written ({e.Message}); check its permissions and the free space, or choose another.", e);
        }
    }

    private static void Check(RunLayout layout, RunIdentity identity, RunOpening opening)
    {
        if (RunFolderRules.Earlier(layout, identity, opening.Restart) is null && !opening.Part.Measures)
            throw new InputDataException($"There is nothing to gather in {layout.Root}: no frame of this run was measured there. Measure first, with bosflow run CASE or its shards, or give the right folder with --output.");
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
            throw new InputDataException($"{path} is not the folder of a run: it has no run.json; give the folder that bosflow run wrote.");
        RunDocument document = RunDocument.Read(layout.Document);
        if (!File.Exists(layout.Summary))
            throw new InputDataException($"The run in {path} has no summary yet; finish it with the command run.");
        return RunSummaryReader.Read(layout, document);
    }

    /// <summary>Draws the maps and writes the report of a finished run again, from its summary alone.</summary>
    /// <param name="path">The folder of the run.</param>
    /// <param name="knifeEdgeDegrees">Another angle for the knife-edge view, degrees counter-clockwise; null keeps the run's.</param>
    /// <param name="clock">Clock of the lock.</param>
    /// <param name="remark">Told of locks that are looked at for long or were left over.</param>
    /// <param name="cancellationToken">Stops between two pictures; what is written so far stays.</param>
    /// <returns>The report's page.</returns>
    /// <exception cref="InputDataException">The folder is in use, holds no finished run, or a file of it is damaged.</exception>
    public static string Render(string path, double? knifeEdgeDegrees, TimeProvider clock, Action<string> remark, CancellationToken cancellationToken)
    {
        // Refuses a folder that is none before a lock is written into it.
        _ = ReadSummary(path);
        var layout = new RunLayout(System.IO.Path.GetFullPath(path));
        RunFolderRules.RefuseLinks(layout);
        using LockFile held = new RunLocks(layout, LockRhythm.Standard, clock, remark).Take("drawing its maps", null, cancellationToken);
        RunSummary summary = ReadSummary(path);
        if (knifeEdgeDegrees is { } angle)
            summary = summary with { Case = summary.Case with { KnifeEdgeDegrees = angle } };
        Directory.CreateDirectory(layout.MapsFolder);
        WritePictures(layout, summary, RunDocument.Read(layout.Document).Identity, cancellationToken);
        return layout.Report;
    }

    /// <summary>The split whose shards were started in this folder; null where there was none, or several.</summary>
    public int? ShardCount => layout.SplitsSeen() is [int count] ? count : null;

    /// <inheritdoc/>
    public IReadOnlySet<int> FinishedFrames(NodeGrid grid)
    {
        (HashSet<int> finished, List<string> damaged) = FrameInventory.Take(layout, document.IdentitySha256, grid);
        DamagedFrames = damaged;
        return finished;
    }

    /// <inheritdoc/>
    /// <exception cref="DiskFullException">There is no room for this frame, for others under way and for the summary; nothing was written.</exception>
    public void WriteFrame(FrameResult result, double processingSeconds)
    {
        ArgumentNullException.ThrowIfNull(result);
        byte[] bytes = NetCdfWriter.ToBytes(FrameFile.ToContent(result, document.Identity.Scale, document.IdentitySha256));
        room.Write(bytes.Length, RunRoom.AfterFrame(bytes.Length, opening.FramesAtATime, result.Field.Grid), () =>
        {
            AtomicFile.WriteBytes(layout.Frame(result.Index), bytes);
            journal.Append(result.Index, processingSeconds);
        });
    }

    /// <inheritdoc/>
    public bool KeepsFields => false;

    /// <inheritdoc/>
    public FrameResult ReadFrame(int index) => FrameFile.FromContent(NetCdfFile.Read(layout.Frame(index)));

    /// <inheritdoc/>
    /// <exception cref="DiskFullException">There is no room for the summary; what was written of it is whole, and run.json says that the run is not complete.</exception>
    public void WriteSummary(RunSummary summary, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(summary);
        room.Write(RunRoom.Summary(summary.Statistics.Grid), reserve: 0, () => WriteParts(summary, cancellationToken));
    }

    /// <summary>Gives the lock back.</summary>
    public void Dispose() => held.Dispose();

    private void WriteParts(RunSummary summary, CancellationToken cancellationToken)
    {
        Reference reference = summary.Reference;
        GrayImage picture = reference.Image;
        NetCdfFile.Write(layout.Reference, ReferenceFile.ToContent(picture, reference.Description, document.IdentitySha256));
        NetCdfFile.Write(layout.Summary, SummaryFile.ToContent(summary, document.IdentitySha256));
        AtomicFile.Write(layout.FramesTable, stream => FramesTable.Write(stream, summary.Frames, picture.Width, picture.Height));
        WriteProfiles(summary.Density?.Profiles ?? []);
        WritePictures(layout, summary, document.Identity, cancellationToken);
        document = document with
        {
            State = "complete",
            FinishedUtc = clock.GetUtcNow(),
            FramesAsked = summary.Frames.Count,
            FramesMeasured = summary.Frames.Count(f => f.IsMeasured),
            FramesFailed = [.. summary.Frames.Where(f => f.Failure is not null).Select(f => f.Index)],
            FramesRejected = [.. summary.Frames.Where(f => f.Rejection is not null).Select(f => f.Index)],
            Reference = reference.Description,
            ReferenceFrames = reference.FrameCount,
            ReferenceWarnings = reference.Warnings,
            Drift = reference.Drift.Count > 0 ? reference.Drift : null,
            BoardScale = summary.BoardScale,
            Sampling = summary.Sampling,
            FootageWarnings = summary.Footage.Warnings,
            Warnings = summary.Warnings,
            Density = DensityDocument.Of(summary.Density),
            KnifeEdgeDegrees = summary.Case.KnifeEdgeDegrees,
        };
        AtomicFile.Write(layout.Document, document.WriteTo);
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
