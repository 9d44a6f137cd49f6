using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Forecasting;
using BosFlow.Cli.Running;

namespace BosFlow.Cli.Queue;

/// <summary>The dry run of a queue: each case, and what all of them need together.</summary>
internal static class QueuePlan
{
    private const int DocumentVersion = 1;

    /// <summary>Measures a few frames of each case and tells what the queue would do; writes nothing into the folders of results.</summary>
    /// <param name="cases">The checked cases.</param>
    /// <param name="talk">How to speak.</param>
    /// <param name="environment">Clock of the times.</param>
    /// <param name="cancellationToken">Stops the measurements.</param>
    /// <returns>The exit code.</returns>
    public static int Tell(IReadOnlyList<QueuedCase> cases, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        var plans = new List<RunPlan>();
        var documents = new JsonArray();
        for (int i = 0; i < cases.Count; i++)
        {
            talk.Result(FormattableString.Invariant($"Case {i + 1} of {cases.Count}: {cases[i].Name}"));
            if (cases[i].Prepared is { } prepared)
            {
                talk.Say($"Measuring a few frames of {cases[i].Name} for the forecast.");
                var plan = RunPlan.Of(prepared, environment.Clock, cancellationToken);
                Tell(plan, talk);
                plans.Add(plan);
                documents.Add(plan.Document());
            }
            else
            {
                foreach (string problem in cases[i].Problems)
                    talk.Fail($"{cases[i].Name}: {problem}");
                documents.Add(new JsonObject { ["case_file"] = cases[i].File, ["problems"] = new JsonArray([.. cases[i].Problems.Select(problem => JsonValue.Create(problem))]) });
            }

            talk.Result(string.Empty);
        }

        RunForecast[] forecasts = [.. plans.Select(plan => plan.Forecast).OfType<RunForecast>()];
        double seconds = forecasts.Sum(forecast => forecast.Seconds);
        // The pace of a machine drifts for all cases alike, so the uncertainties add up.
        double sigma = forecasts.Sum(forecast => forecast.SigmaSeconds);
        talk.Result($"Together:  {RunPlan.TimeText(seconds, sigma)}, about {ByteText.Disk(forecasts.Sum(forecast => forecast.Bytes))}; {plans.Count} of {cases.Count} cases are in order");
        WarnOfFullDisks(plans, talk);
        int code = plans.Count < cases.Count ? ExitCode.BadInput : plans.Any(plan => plan.Trouble is not null) ? ExitCode.DoneWithLosses : ExitCode.Done;
        talk.Document("run-queue-plan", DocumentVersion, new JsonObject { ["exit_code"] = code, ["seconds"] = seconds, ["sigma_seconds"] = sigma, ["cases"] = documents });
        return code;
    }

    /// <summary>Tells the plan of one case.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="talk">How to speak.</param>
    public static void Tell(RunPlan plan, Talk talk)
    {
        foreach (string line in plan.Lines())
            talk.Result(line);
        foreach (string warning in plan.Warnings)
            talk.Warn(warning);
    }

    // Each case may fit alone and yet not all of them together.
    private static void WarnOfFullDisks(IReadOnlyList<RunPlan> plans, Talk talk)
    {
        foreach (IGrouping<string, RunPlan> disk in plans.Where(plan => plan.Forecast is not null).GroupBy(plan => plan.Disk.MountPoint, StringComparer.Ordinal))
        {
            long needed = disk.Sum(plan => plan.Forecast!.Bytes);
            long free = disk.Min(plan => plan.Disk.FreeBytes);
            if (needed > free)
                talk.Warn($"The disk at {disk.Key} is too small for the whole queue: about {ByteText.Disk(needed)} will be written, and {ByteText.Disk(free)} are free; make space, or choose another disk with --output.");
        }
    }
}
