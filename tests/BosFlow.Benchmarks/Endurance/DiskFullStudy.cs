using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>The disk becomes full at different points of a run; whether finished frames stay as they are, and the run ends once there is space again.</summary>
internal static class DiskFullStudy
{
    private const int Seed = 73;
    private const int DiskMegabytes = 96;
    private const double MostLeft = 20e6;

    public static string Text(EnduranceCase study, int points)
    {
        using SmallDisk? disk = SmallDisk.TryMount(study.Output("disk"), DiskMegabytes);
        if (disk is null)
            return "Not done: this user may not mount a small disk (tmpfs). Run the measurement as root.\n";
        string folder = Path.Combine(disk.Root, "run");
        RunProcess.ToTheEnd(study, folder);
        IReadOnlyDictionary<string, string> expected = RunFiles.Hashes(folder);
        Directory.Delete(folder, recursive: true);

        var random = new Random(Seed);
        var rows = new List<IReadOnlyList<string>>();
        int good = 0;
        for (int point = 0; point < points; point++)
        {
            // Every second time the disk is full to its last page; else something is left.
            long left = point % 2 == 0 ? 0 : (long)(random.NextDouble() * MostLeft);
            (IReadOnlyList<string> row, bool fine) = Point(study, disk, expected, frames: point * study.Frames / (points - 1), left);
            rows.Add(row);
            good += fine ? 1 : 0;
            Console.Error.WriteLine($"disk full: {string.Join(", ", row)}");
        }

        return string.Create(CultureInfo.InvariantCulture, $"""
            The results go to a disk of {DiskMegabytes} MB (tmpfs). As soon as the given number of frames is finished, another file takes all the room but a remainder
            (none at every second point, else drawn evenly up to {MostLeft / 1e6:0} MB, seed {Seed}). When the run has ended, each frame it had finished must be
            byte-identical to the undisturbed run's. Then the other file is deleted and the same command given again.

            {MarkdownTable.Of(["frames finished when the disk fills", "bytes left", "exit code", "frames kept", "kept frames equal", "ends with equal bytes"], rows)}
            **At {good} of {points} points nothing was lost and the same command ended with equal bytes.**
            """);
    }

    private static (IReadOnlyList<string> Row, bool Fine) Point(EnduranceCase study, SmallDisk disk, IReadOnlyDictionary<string, string> expected, int frames, long left)
    {
        string folder = Path.Combine(disk.Root, "run");
        int code;
        string words;
        using (var run = new RunProcess(study, folder))
        {
            while (!run.HasExited && run.FinishedFrames() < frames)
                Thread.Sleep(1);
            disk.Fill(left);
            code = run.Wait();
            words = run.Words;
        }

        IReadOnlyDictionary<string, string> kept = Directory.Exists(folder) ? RunFiles.Hashes(folder) : new Dictionary<string, string>();
        string[] finished = [.. kept.Keys.Where(name => name.EndsWith(".nc", StringComparison.Ordinal) && name.StartsWith("frames", StringComparison.Ordinal))];
        int intact = finished.Count(name => expected.GetValueOrDefault(name) == kept[name]);
        // A run that found enough room ends as ever; one that did not says that the disk is full.
        bool said = code == 0 || words.Contains("space", StringComparison.OrdinalIgnoreCase);
        disk.MakeSpace();
        using var again = new RunProcess(study, folder);
        bool equal = again.Wait() == 0 && RunFiles.Differences(expected, RunFiles.Hashes(folder)).Count == 0;
        if (!said || !equal)
            Console.Error.WriteLine($"\nexit code {code}:\n{words}\nagain:\n{again.Words}");
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
        return (
            [
                frames.ToString(CultureInfo.InvariantCulture),
                left.ToString(CultureInfo.InvariantCulture),
                code.ToString(CultureInfo.InvariantCulture),
                finished.Length.ToString(CultureInfo.InvariantCulture),
                intact == finished.Length ? "yes" : $"{intact} only",
                equal ? "yes" : "no",
            ],
            said && equal && intact == finished.Length);
    }
}
