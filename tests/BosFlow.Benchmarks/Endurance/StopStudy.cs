using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>A run gets SIGINT (Ctrl-C) or SIGTERM at a random moment of its work; how long it takes to stop, and whether it goes on.</summary>
internal static class StopStudy
{
    private const int Seed = 72;

    public static string Text(IReadOnlyList<(EnduranceCase Study, int Stops)> parts)
    {
        var rows = new List<IReadOnlyList<string>>();
        foreach ((EnduranceCase study, int stops) in parts)
            rows.Add(Row(study, stops));
        return string.Create(CultureInfo.InvariantCulture, $"""
            A run gets SIGINT (as from Ctrl-C) or SIGTERM, by turns, at a moment drawn evenly from the time between its first output and its end (seed {Seed});
            the time from the signal to the end of the process is taken. Then the same command is given again and its files are compared
            with those of an undisturbed run.

            {MarkdownTable.Of(["picture", "signals", "exit code 130", "median, s", "longest, s", "equal bytes after going on"], rows)}
            """);
    }

    private static string[] Row(EnduranceCase study, int stops)
    {
        string calm = study.Output("calm");
        double seconds;
        double begin;
        using (var run = new RunProcess(study, calm))
        {
            begin = Begin(run, calm);
            run.Wait();
            seconds = run.Seconds - begin;
        }

        IReadOnlyDictionary<string, string> expected = RunFiles.Hashes(calm);
        var random = new Random(Seed);
        var times = new List<double>();
        int interrupted = 0, equal = 0;
        for (int draw = 0; times.Count < stops && draw < 3 * stops; draw++)
        {
            string folder = study.Output("stopped");
            using (var run = new RunProcess(study, folder))
            {
                double moment = Begin(run, folder) + (random.NextDouble() * seconds);
                if (!run.RunsUntil(moment))
                {
                    Directory.Delete(folder, recursive: true);
                    continue;
                }

                (int code, double time) = run.Signal(times.Count % 2 == 0 ? "INT" : "TERM");
                times.Add(time);
                interrupted += code == ExitCodeOfInterruption ? 1 : 0;
                if (code != ExitCodeOfInterruption)
                    Console.Error.WriteLine($"\nstopped after {moment:0.00} s of {seconds:0.00}: exit code {code}\n{run.Words}");
            }

            RunProcess.ToTheEnd(study, folder);
            equal += RunFiles.Differences(expected, RunFiles.Hashes(folder)).Count == 0 ? 1 : 0;
            Directory.Delete(folder, recursive: true);
            Console.Error.Write($"\rstops at {study.Size}: {times.Count} of {stops}, {equal} equal, last {times[^1]:0.00} s ");
        }

        Console.Error.WriteLine();
        return
        [
            study.Size,
            times.Count.ToString(CultureInfo.InvariantCulture),
            interrupted.ToString(CultureInfo.InvariantCulture),
            Median.Of(times).ToString("0.00", CultureInfo.InvariantCulture),
            times.Max().ToString("0.00", CultureInfo.InvariantCulture),
            $"{equal} of {times.Count}",
        ];
    }

    private const int ExitCodeOfInterruption = 130;

    // Before its folder there is nothing that could be lost.
    private static double Begin(RunProcess run, string folder)
    {
        while (!run.HasExited && !File.Exists(Path.Combine(folder, "run.json")))
            Thread.Sleep(5);
        return run.Seconds;
    }
}
