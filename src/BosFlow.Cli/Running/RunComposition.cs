using BosFlow.Cli.CommandLine;
using BosFlow.Pipeline;
using BosFlow.Results.Files;
using BosFlow.Results.Runs;

namespace BosFlow.Cli.Running;

/// <summary>Carries out a run: joins footage, reference, folder and pipeline. Every command that measures goes through here.</summary>
public static class RunComposition
{
    /// <summary>Measures what is still to be measured, and writes summary, maps and report.</summary>
    /// <param name="prepared">The checked run.</param>
    /// <param name="talk">Where progress and warnings go.</param>
    /// <param name="environment">Console and clock.</param>
    /// <param name="cancellationToken">Stops after the frame at hand; finished frames are kept.</param>
    /// <exception cref="InputDataException">The folder holds something else; nothing was written.</exception>
    /// <exception cref="WorkFailedException">The work was begun and cannot be finished.</exception>
    public static FinishedRun Execute(PreparedRun prepared, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        ArgumentNullException.ThrowIfNull(talk);
        ArgumentNullException.ThrowIfNull(environment);
        long start = environment.Clock.GetTimestamp();
        var opening = new RunOpening
        {
            Part = prepared.Settings.Part,
            Restart = prepared.Settings.Restart,
            FramesAtATime = prepared.Settings.Threads,
            Remark = talk.Warn,
        };
        using RunFolder folder = RunFolder.Open(prepared.OutputFolder, prepared.Identity, opening, environment.Clock, cancellationToken);
        using var log = new RunLog(folder.LogPath);
        // A gathering is refused where frames are missing; whoever measures has begun.
        if (prepared.Settings.Part.Measures)
            log.Begin();
        try
        {
            return Measure(prepared, folder, log, talk, environment, cancellationToken) with { Time = environment.Clock.GetElapsedTime(start) };
        }
        catch (Exception exception) when (log.Record(exception))
        {
            // The filter only takes a note: it never catches.
            throw;
        }
    }

    private static FinishedRun Measure(
        PreparedRun prepared, RunFolder folder, RunLog log, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        log.Note($"bosflow {VersionLine.Text}, case {prepared.Case.File}, {prepared.Settings.Part}, {prepared.Settings.Part.Frames(prepared.FrameIndices).Count} frames, {prepared.Settings.Threads} threads, results in {folder.Path}");
        log.Note($"footage: {prepared.Footage.Info.Description}");
        using var display = new RunProgressDisplay(talk, environment, prepared.Settings.Place);
        var store = new ObservedStore(folder, onFrame: (result, seconds) => Tell(result, seconds, log, display), onWarning: sentence =>
        {
            log.Warn(sentence);
            display.Warn(sentence);
        });
        var request = new RunRequest
        {
            Case = prepared.Case.Experiment,
            Footage = prepared.Footage,
            FrameIndices = prepared.FrameIndices,
            Reference = prepared.Reference,
            Board = prepared.Identity.Board,
            BoardScale = prepared.BoardScale,
            Part = prepared.Settings.Part,
            Sources = prepared.Sources,
            Store = store,
            Options = new RunOptions
            {
                Threads = prepared.Settings.Threads,
                IsMemoryShort = prepared.Settings.MaxMemoryBytes is { } limit ? new MemoryWatch(limit, environment.Clock).IsShort : null,
            },
        };
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken, folder.LockLost);
        try
        {
            RunOutcome outcome = RunPipeline.Run(request, RunStages.Standard, new LoggedProgress(log, display), stop.Token);
            display.End();
            log.Note($"{outcome.FramesMeasured} of {outcome.FramesTotal} frames measured, {outcome.FramesResumed} of them before");
            var finished = new FinishedRun(prepared, outcome, folder.Path, folder.ReportPath, folder.LogPath) { Density = store.Density };
            foreach (string warning in finished.Warnings)
                log.Warn(warning);
            return finished;
        }
        catch (OperationCanceledException exception) when (folder.LockLost.IsCancellationRequested && !cancellationToken.IsCancellationRequested)
        {
            throw new WorkFailedException($"The run lost its lock on {folder.Path}: the folder was cleared, or another machine took this one for dead because it stood still. Finished frames are kept; start the same command again where nobody else is at work.", exception);
        }
        catch (MissingFramesException missing)
        {
            throw new InputDataException(MissingFrameWords.Sentence(missing.Frames, prepared, folder.ShardCount), missing);
        }
        catch (Exception exception) when (exception is InputDataException or RunFailedException or DiskFullException)
        {
            // The folder is there and the work had begun, so this is no "found before any work" any more.
            throw new WorkFailedException(exception.Message, exception);
        }
    }

    private static void Tell(FrameResult result, double seconds, RunLog log, RunProgressDisplay display)
    {
        log.Note(result.IsMeasured
            ? FormattableString.Invariant($"frame {result.Index}: noise floor {result.NoiseFloorU:0.0000} {result.NoiseFloorV:0.0000} px, {result.ValidFraction:P1} of the vectors valid, {seconds:0.00} s")
            : result.Rejection is not null
            ? FormattableString.Invariant($"frame {result.Index} is left out: {result.Rejection}")
            : FormattableString.Invariant($"frame {result.Index} could not be measured: {result.Failure}"));
        foreach (string warning in result.Warnings)
            log.Warn(FormattableString.Invariant($"frame {result.Index}: {warning}"));
        display.Frame(result);
    }
}
