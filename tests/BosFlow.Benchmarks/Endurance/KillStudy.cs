using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>A run is killed (SIGKILL) at a random moment, started again and left to its end; its files are compared with those of an undisturbed run.</summary>
internal static class KillStudy
{
    private const int Seed = 71;

    public static string Text(EnduranceCase study, int kills)
    {
        string calm = study.Output("undisturbed");
        (double seconds, _) = RunProcess.ToTheEnd(study, calm);
        IReadOnlyDictionary<string, string> expected = RunFiles.Hashes(calm);
        var random = new Random(Seed);
        var trials = new List<KillTrial>();
        for (int draw = 0; trials.Count < kills && draw < 3 * kills; draw++)
        {
            if (Trial(study, expected, random.NextDouble() * seconds) is { } trial)
                trials.Add(trial);
            Console.Error.Write($"\rkills: {trials.Count} of {kills}, {trials.Count(t => t.Equal)} equal ");
        }

        Console.Error.WriteLine();
        return string.Create(CultureInfo.InvariantCulture, $"""
            One run of {study.Frames} frames of {study.Size} px ({expected.Count} files, {seconds:0.0} s undisturbed) is killed by SIGKILL at a moment drawn evenly from its
            duration (seed {Seed}), in a new folder each time; then the same command is given again and ends. All files but those that tell of
            one run (run.json, log, timing) are compared with the undisturbed run's. A draw after the end of the run does not count.

            {MarkdownTable.Of(["killed while", "kills", "ended with equal bytes"], Rows(trials, study.Frames))}
            **{trials.Count(t => t.Equal)} of {trials.Count} runs ended with bytes equal to the undisturbed run's.**
            """);
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(List<KillTrial> trials, int frames)
    {
        foreach ((string name, Func<KillTrial, bool> chosen) in new (string, Func<KillTrial, bool>)[]
        {
            ("starting and reading the footage (no frame finished)", t => t.FinishedFrames == 0),
            ("measuring frames", t => t.FinishedFrames > 0 && t.FinishedFrames < frames),
            ("writing summary, maps and report (all frames finished)", t => t.FinishedFrames == frames),
        })
        {
            KillTrial[] part = [.. trials.Where(chosen)];
            yield return [name, part.Length.ToString(CultureInfo.InvariantCulture), part.Count(t => t.Equal).ToString(CultureInfo.InvariantCulture)];
        }
    }

    // Null where the run was faster than the drawn moment.
    private static KillTrial? Trial(EnduranceCase study, IReadOnlyDictionary<string, string> expected, double moment)
    {
        string folder = study.Output("killed");
        int finished;
        using (var run = new RunProcess(study, folder))
        {
            if (!run.RunsUntil(moment))
            {
                Directory.Delete(folder, recursive: true);
                return null;
            }

            run.Kill();
            finished = run.FinishedFrames();
        }

        using var again = new RunProcess(study, folder);
        int code = again.Wait();
        IReadOnlyList<string> differences = code == 0 ? RunFiles.Differences(expected, RunFiles.Hashes(folder)) : ["exit code"];
        if (differences.Count > 0)
            Console.Error.WriteLine($"\nkilled after {moment:0.000} s, {finished} frames: exit code {code}, differing: {string.Join(", ", differences.Take(5))}\n{again.Words}");
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
        return new KillTrial(finished, differences.Count == 0);
    }
}
