using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Running;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Queue;

/// <summary>Checks every case of a queue before the first is begun; reads, and writes nothing.</summary>
internal static class QueuePreparation
{
    /// <summary>Checks the cases.</summary>
    /// <param name="list">The cases.</param>
    /// <param name="common">What was asked for of each; an output folder holds one folder a case.</param>
    /// <param name="talk">How to speak.</param>
    /// <param name="cancellationToken">Stops between two files.</param>
    public static IReadOnlyList<QueuedCase> Prepare(CaseList list, RunSettings common, Talk talk, CancellationToken cancellationToken)
    {
        QueuedCase[] cases = [.. list.Files.Select(file => Prepare(file, common, talk, cancellationToken))];
        return [.. cases.Select(one => one.Prepared is null ? one : RefuseSharedFolder(one, cases))];
    }

    private static QueuedCase Prepare(string file, RunSettings common, Talk talk, CancellationToken cancellationToken)
    {
        string name = QueuedCase.NameOf(file);
        var bare = new QueuedCase(file, name, null, []);
        RunSettings settings = common with
        {
            CasePath = file,
            OutputFolder = common.OutputFolder is { } folder ? Path.Combine(folder, name) : null,
        };
        try
        {
            PreparedRun prepared = RunPreparation.Prepare(settings, talk.Say, cancellationToken);
            RunFolder.Check(prepared.OutputFolder, prepared.Identity, settings.Restart);
            return bare with { Prepared = prepared };
        }
#pragma warning disable CA1031 // Whatever is wrong with a case, the others of the night must be checked too.
        catch (Exception exception) when (exception is not OperationCanceledException)
#pragma warning restore CA1031
        {
            return bare.Refuse(ErrorReport.Explain(talk, exception).Sentences);
        }
    }

    // None of them is the one that was meant: a mixture of results would be worse than none.
    private static QueuedCase RefuseSharedFolder(QueuedCase one, QueuedCase[] cases)
    {
        string folder = one.Prepared!.OutputFolder;
        QueuedCase? other = cases.FirstOrDefault(that => that.File != one.File && that.Prepared?.OutputFolder == folder);
        return other is null ? one : one.Refuse(
            $"Its results would go to {folder}, as those of {other.File} would; give each case an [output] folder of its own.");
    }
}
