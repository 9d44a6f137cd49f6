using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Running;

namespace BosFlow.Cli.Queue;

/// <summary>Several cases, one after the other: one that is wrong or fails does not stop the others.</summary>
internal sealed class CaseQueue
{
    private readonly IReadOnlyList<QueuedCase> cases;
    private readonly Talk talk;
    private readonly CommandEnvironment environment;
    private readonly List<CaseResult> results = [];

    /// <summary>Creates the queue.</summary>
    /// <param name="cases">The checked cases.</param>
    /// <param name="talk">How to speak.</param>
    /// <param name="environment">Console and clock.</param>
    public CaseQueue(IReadOnlyList<QueuedCase> cases, Talk talk, CommandEnvironment environment)
    {
        this.cases = cases;
        this.talk = talk;
        this.environment = environment;
    }

    /// <summary>Carries out every case that can be, and tells what became of each.</summary>
    /// <param name="cancellationToken">Stops the whole queue.</param>
    /// <returns>The exit code.</returns>
    /// <exception cref="OperationCanceledException">Cancelled; what became of each case until then was told.</exception>
    public int Run(CancellationToken cancellationToken)
    {
        QueueWords.TellRefused(talk, cases);
        long start = environment.Clock.GetTimestamp();
        try
        {
            for (int i = 0; i < cases.Count; i++)
                results.Add(Run(cases[i], i + 1, cancellationToken));
        }
        catch (OperationCanceledException)
        {
            results.AddRange(cases.Skip(results.Count).Select(one => Result(one, one.Prepared is null ? CaseState.Refused : CaseState.Interrupted)));
            QueueWords.TellTable(talk, results);
            throw;
        }

        int code = Code(results);
        QueueWords.Tell(talk, results, code, environment.Clock.GetElapsedTime(start));
        return code;
    }

    /// <summary>The exit code that a queue earns.</summary>
    /// <param name="results">What became of its cases.</param>
    internal static int Code(IReadOnlyList<CaseResult> results)
    {
        if (results.All(result => result.State == CaseState.Refused))
            return ExitCode.BadInput;
        if (results.Any(result => result.State is CaseState.Refused or CaseState.Failed))
            return ExitCode.Failed;
        return results.Any(result => result.State == CaseState.DoneWithLosses) ? ExitCode.DoneWithLosses : ExitCode.Done;
    }

    private CaseResult Run(QueuedCase one, int number, CancellationToken cancellationToken)
    {
        if (one.Prepared is not { } prepared)
            return Result(one, CaseState.Refused);
        cancellationToken.ThrowIfCancellationRequested();
        string place = FormattableString.Invariant($"case {number} of {cases.Count}");
        talk.Say($"Begin {place}: {one.Name}");
        long start = environment.Clock.GetTimestamp();
        try
        {
            FinishedRun finished = RunComposition.Execute(prepared with { Settings = prepared.Settings with { Place = place } }, talk, environment, cancellationToken);
            return Finished(one, finished, environment.Clock.GetElapsedTime(start), place);
        }
#pragma warning disable CA1031 // A case that fails, in whatever way, must not cost the night of the others.
        catch (Exception exception) when (!cancellationToken.IsCancellationRequested)
#pragma warning restore CA1031
        {
            (int code, IReadOnlyList<string> sentences) = ErrorReport.Explain(talk, exception);
            foreach (string sentence in sentences)
                talk.Fail($"{one.Name}: {sentence}");
            CaseState state = code == ExitCode.BadInput ? CaseState.Refused : CaseState.Failed;
            return Result(one, state) with { Problems = sentences, Time = environment.Clock.GetElapsedTime(start), Folder = prepared.OutputFolder };
        }
    }

    private CaseResult Finished(QueuedCase one, FinishedRun finished, TimeSpan time, string place)
    {
        talk.Result($"{char.ToUpperInvariant(place[0])}{place[1..]}: {one.Name}");
        RunWords.TellPeople(talk, finished);
        talk.Result(string.Empty);
        return Result(one, finished.Code == ExitCode.Done ? CaseState.Done : CaseState.DoneWithLosses) with
        {
            FramesMeasured = finished.Outcome.FramesMeasured,
            FramesTotal = finished.Outcome.FramesTotal,
            NoiseFloor = Math.Max(finished.Outcome.NoiseFloorU, finished.Outcome.NoiseFloorV),
            Time = time,
            Folder = finished.Folder,
            Document = RunWords.Document(finished),
        };
    }

    private static CaseResult Result(QueuedCase one, CaseState state) => new() { Name = one.Name, File = one.File, State = state, Problems = one.Problems };
}
