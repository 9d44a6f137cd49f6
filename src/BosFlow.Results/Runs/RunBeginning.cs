using BosFlow.Results.Files;

namespace BosFlow.Results.Runs;

/// <summary>Writes run.json when a folder is opened, and makes room for what follows. The caller holds the folder's lock.</summary>
internal static class RunBeginning
{
    /// <summary>The document of the run, as it lies in the folder from now on.</summary>
    /// <exception cref="InputDataException">Another process began another run meanwhile.</exception>
    public static RunDocument Document(RunLayout layout, RunIdentity identity, RunOpening opening, TimeProvider clock)
    {
        RunDocument? earlier = RunFolderRules.Earlier(layout, identity, opening.Restart);
        if (opening.Part.Shard is null)
        {
            if (opening.Part.Measures)
                earlier = OfWhole(layout, opening.Restart ? null : earlier, identity, clock);
            if (opening.Restart)
                layout.DeleteResults();
        }
        else
        {
            // Shards that start at the same moment all try; the first one's words stay, and all go by them.
            if (earlier is null && !AtomicFile.Create(layout.Document, New(identity, clock).WriteTo))
                earlier = RunFolderRules.Earlier(layout, identity, restart: false);
            earlier ??= RunDocument.Read(layout.Document);
        }

        layout.MakeFolders();
        layout.RemoveLeftovers(ofAnyMachine: opening.Part.Shard is null);
        return earlier!;
    }

    // Written before old results are deleted: a deletion that is cut short leaves frames of another identity, which are measured again.
    private static RunDocument OfWhole(RunLayout layout, RunDocument? earlier, RunIdentity identity, TimeProvider clock)
    {
        RunDocument document = (earlier ?? New(identity, clock)) with { State = "running", FinishedUtc = null };
        AtomicFile.Write(layout.Document, document.WriteTo);
        return document;
    }

    private static RunDocument New(RunIdentity identity, TimeProvider clock) => new()
    {
        State = "running",
        StartedUtc = clock.GetUtcNow(),
        IdentitySha256 = identity.Sha256(),
        KnifeEdgeDegrees = identity.Case.KnifeEdgeDegrees,
        Identity = identity,
    };
}
