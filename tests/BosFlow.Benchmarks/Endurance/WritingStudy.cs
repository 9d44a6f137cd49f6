using System.Diagnostics;
using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.Results.Files;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>What flushing and renaming each frame's file cost beside measuring the frame.</summary>
internal static class WritingStudy
{
    private const int Rounds = 200;

    public static string Text(EnduranceCase study)
    {
        string folder = study.Output("measured");
        RunProcess.ToTheEnd(study, folder, threads: 1);
        double frame = Median.Of([.. File.ReadLines(Path.Combine(folder, "timing.csv")).Skip(1).Select(line => double.Parse(line.Split(',')[1], CultureInfo.InvariantCulture))]);
        byte[] bytes = File.ReadAllBytes(Directory.EnumerateFiles(Path.Combine(folder, "frames"), "*.nc").Order(StringComparer.Ordinal).First());
        string target = Path.Combine(folder, "written.bin");
        var plain = new List<double>();
        var durable = new List<double>();
        // By turns, so that a busy moment of the disk meets both.
        for (int round = 0; round < Rounds; round++)
        {
            plain.Add(Seconds(() => File.WriteAllBytes(target, bytes)));
            durable.Add(Seconds(() => AtomicFile.WriteBytes(target, bytes)));
        }

        double overhead = Median.Of(durable) - Median.Of(plain);
        string kind = new DriveInfo(folder).DriveFormat;
        Console.Error.WriteLine($"writing: {1e3 * overhead:0.00} ms of {1e3 * frame:0} ms");
        return string.Create(CultureInfo.InvariantCulture, $"""
            The bytes of one frame's file ({study.Size} px, default settings, {bytes.Length / 1e3:0} kB) are written {Rounds} times plainly and {Rounds} times durably (temporary name,
            flush to the disk, rename), by turns, on {kind}; measuring a frame is the median over {study.Frames} frames of a run with one thread.

            | | ms (median) |
            | --- | ---: |
            | measuring one frame, one thread | {1e3 * frame:0.0} |
            | writing its file plainly | {1e3 * Median.Of(plain):0.00} |
            | writing its file durably | {1e3 * Median.Of(durable):0.00} |
            | overhead of durable writing | {1e3 * overhead:0.00} |

            **The overhead is {100 * overhead / frame:0.00} % of the time that measuring a frame takes; at most 3 % is asked for.**
            """);
    }

    private static double Seconds(Action write)
    {
        long start = Stopwatch.GetTimestamp();
        write();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
