using System.CommandLine;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Forecasting;
using BosFlow.Cli.Queue;
using BosFlow.Cli.Running;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Commands;

/// <summary>Carries out a case: from footage to maps and report.</summary>
public static class RunCommand
{
    private const int DryRunDocumentVersion = 1;
    private const int MostThreads = 1024;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var caseFiles = new Argument<string[]>("CASE")
        {
            Description = "The case file, or the folder with a case.toml in it; several of them, or a folder of cases, are a queue.",
            Arity = ArgumentArity.OneOrMore,
        };
        var output = new Option<string?>("--output", "-o") { Description = "Folder of the results, in place of the one in the case file; of a queue, it holds a folder for each case.", HelpName = "FOLDER" };
        var frames = new Option<string?>("--frames") { Description = "Only these frames, start:stop:step; the others can follow later in the same folder.", HelpName = "RANGE" };
        var threads = new Option<int>("--threads")
        {
            Description = "Frames measured side by side; results do not depend on it, memory does.",
            HelpName = "N",
            DefaultValueFactory = _ => Environment.ProcessorCount,
        };
        var maxMemory = new Option<string?>("--max-memory") { Description = "Memory that the run may take, such as 4GiB: fewer frames are measured side by side, or held, until it fits.", HelpName = "AMOUNT" };
        var restart = new Option<bool>(GoOnCommand.Restart) { Description = "Delete the results that are in the folder and measure every frame again." };
        var shard = new Option<string?>("--shard") { Description = "Only this part of the frames, such as 3/16, and no summary; for several processes or machines at the same time.", HelpName = "K/N" };
        var gather = new Option<bool>("--gather") { Description = "Measure nothing; write summary, maps and report of the frames that shards have measured." };
        var dryRun = new Option<bool>("--dry-run") { Description = "Check the case and its files, measure a few frames, say what would be done and which time, disk and memory it needs; write nothing." };
        MisspeltOptions.RefuseAmong(caseFiles);
        threads.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && !(int.TryParse(result.Tokens[0].Value, out int count) && count is >= 1 and <= MostThreads))
                result.AddError($"--threads {result.Tokens[0].Value} is not possible; give a whole number from 1 to {MostThreads}.");
        });
        maxMemory.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && ByteText.TryRead(result.Tokens[0].Value) is null)
                result.AddError($"--max-memory {result.Tokens[0].Value} is no amount of memory; give {ByteText.InWords}.");
        });
        frames.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && !FrameRangeSyntax.IsRange(result.Tokens[0].Value))
                result.AddError($"--frames {result.Tokens[0].Value} is no frame range; give {FrameRangeSyntax.InWords}.");
        });
        shard.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && !ShardSyntax.TryRead(result.Tokens[0].Value, out _))
                result.AddError($"--shard {result.Tokens[0].Value} is no shard; give {ShardSyntax.InWords}.");
        });
        var command = new ExampleCommand("run", "Measure a case: displacement, density gradient, maps and report.")
        {
            Examples =
            [
                ("bosflow run my-flight/case.toml", "measures every frame; a second start goes on where the first one stopped"),
                ("bosflow run my-flight/case.toml --dry-run", "checks everything, foretells time, disk and memory, and writes nothing"),
                ("bosflow run my-flight/case.toml --frames 0:10", "the first ten frames, for a look"),
                ("bosflow run my-flight/case.toml --output /data/second-try", "the same case into another folder"),
                ("bosflow run my-flight/case.toml --shard 3/16", "the third of sixteen parts, on one machine of several"),
                ("bosflow run my-flight/case.toml --gather", "the summary, once all parts are measured"),
                ("bosflow run monday.toml tuesday.toml", "a queue: one case after the other; one that fails does not stop the others"),
                ("bosflow run cases/", "every case in a folder as one queue"),
                ("bosflow run my-flight/case.toml --json --quiet > run.json", "for scripts"),
            ],
        };
        foreach (Symbol symbol in new Symbol[] { caseFiles, output, frames, threads, maxMemory, restart, shard, gather, dryRun })
            Add(command, symbol);
        command.Validators.Add(result =>
        {
            if (result.GetValue(shard) is not null && result.GetValue(gather))
                result.AddError("--shard and --gather exclude each other: a shard measures a part of the frames, --gather measures none.");
            else if (result.GetValue(restart) && (result.GetValue(shard) is not null || result.GetValue(gather)))
                result.AddError("--restart deletes what all shards have measured and cannot go with --shard or --gather: begin anew with bosflow run CASE --restart, or choose another folder with --output.");
        });
        command.SetAction(async (parsed, cancellationToken) =>
        {
            string[] paths = [.. parsed.GetRequiredValue(caseFiles).Select(environment.Absolute)];
            var settings = new RunSettings
            {
                CasePath = paths[0],
                OutputFolder = parsed.GetValue(output) is { } folder ? environment.Absolute(folder) : null,
                Frames = parsed.GetValue(frames),
                Threads = parsed.GetValue(threads),
                MaxMemoryBytes = parsed.GetValue(maxMemory) is { } amount ? ByteText.TryRead(amount) : null,
                Restart = parsed.GetValue(restart),
                Part = parsed.GetValue(gather) ? RunPart.Gathering : ShardSyntax.TryRead(parsed.GetValue(shard), out Shard? part) ? RunPart.Of(part) : RunPart.Whole,
            };
            var talk = Talk.Of(parsed, environment);
            try
            {
                return await Task.Run(() => Run(paths, settings, parsed.GetValue(dryRun), talk, environment, cancellationToken)).ConfigureAwait(false);
            }
            catch (OperationCanceledException exception) when (GoOnCommand.Note(exception, parsed))
            {
                // The filter only takes a note: it never catches.
                throw;
            }
        });
        return command;
    }

    private static void Add(Command command, Symbol symbol)
    {
        if (symbol is Option option)
            command.Add(option);
        else
            command.Add((Argument)symbol);
    }

    private static int Run(string[] paths, RunSettings settings, bool dryRun, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        CaseList list = CaseList.Of(paths);
        foreach (string passed in list.Passed)
            talk.Say($"{passed} has no [footage] and is passed over.");
        if (list.IsQueue && settings.Part != RunPart.Whole)
            throw new InputDataException("--shard and --gather work on one case at a time: give one case file, and start the command once for each case.");
        if (list.IsQueue)
        {
            IReadOnlyList<QueuedCase> cases = QueuePreparation.Prepare(list, settings, talk, cancellationToken);
            return dryRun ? QueuePlan.Tell(cases, talk, environment, cancellationToken) : new CaseQueue(cases, talk, environment).Run(cancellationToken);
        }

        PreparedRun prepared = RunPreparation.Prepare(settings with { CasePath = list.Files[0] }, talk.Say, cancellationToken);
        if (dryRun)
            return TellPlan(prepared, talk, environment, cancellationToken);
        FinishedRun finished = RunComposition.Execute(prepared, talk, environment, cancellationToken);
        if (settings.Part.Gathers)
            RunWords.Tell(talk, finished);
        else
            ShardWords.Tell(talk, finished);
        return finished.Code;
    }

    private static int TellPlan(PreparedRun prepared, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        talk.Say("Measuring a few frames for the forecast.");
        var plan = RunPlan.Of(prepared, environment.Clock, cancellationToken);
        QueuePlan.Tell(plan, talk);
        talk.Document("run-plan", DryRunDocumentVersion, plan.Document());
        return plan.Trouble is null ? ExitCode.Done : ExitCode.DoneWithLosses;
    }
}
