using System.Globalization;
using BosFlow.Benchmarks.Reporting;
using BosFlow.ForeignBytes;
using BosFlow.ForeignBytes.Readers;

namespace BosFlow.Benchmarks.DamagedInput;

/// <summary>Every reader on mutated inputs, outcomes counted, as a report.</summary>
internal static class MutantMeasurement
{
    private const int Mutants = 2000;

    private static readonly Outcome[] Outcomes = Enum.GetValues<Outcome>();

    /// <summary>Measures and writes the report.</summary>
    /// <returns>0; 1 where a reader was at fault.</returns>
    public static int Run(MeasurementOptions options)
    {
        var verdicts = new IReadOnlyList<Verdict>[ForeignReaders.All.Count];
        Parallel.For(0, verdicts.Length, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            verdicts[i] = Campaign.RunAsync(ForeignReaders.All[i], 0, Mutants).GetAwaiter().GetResult();
            Console.Error.WriteLine($"{ForeignReaders.All[i].Name}: done");
        });
        ReportFile.Write(options.Output, string.Create(CultureInfo.InvariantCulture, $"""
            # Mutated inputs

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- foreign-bytes` on {MachineDescription.Line()}.

            Good inputs are damaged: bits flipped, files cut, parts moved, repeated, filled or left out, extreme numbers written where lengths and sizes stand, words of texts swapped
            for extreme numbers, odd letters or brackets in brackets. Where a format has checksums, every other mutant of PNG and netCDF files gets them put right, so that what lies behind
            them is reached. Each mutant has a number, and the number makes it again. They are read in a process of their own.

            Required: each is read, or refused by sentences of one line that name the file, or the one beside it that it belongs to. Not allowed: any other exception, a process that ends, no answer within
            {Campaign.Longest.TotalSeconds} s, more than {Trial.MostBytes >> 20} MB of memory (of the reading process, without ffmpeg's) for files of some kilobytes.
            That a mutant is accepted is no fault: plain pixels, JPEG and video streams have no checksum that would show the damage.

            {MarkdownTable.Of(["reader", "mutants", .. Outcomes.Select(Word)], verdicts.Select(Row))}
            {Faults(verdicts)}
            """));
        return verdicts.Any(all => all.Any(verdict => !verdict.IsAllowed)) ? 1 : 0;
    }

    private static string[] Row(IReadOnlyList<Verdict> verdicts, int reader) =>
    [
        ForeignReaders.All[reader].Title,
        verdicts.Count.ToString(CultureInfo.InvariantCulture),
        .. Outcomes.Select(outcome => verdicts.Count(verdict => verdict.Outcome == outcome).ToString(CultureInfo.InvariantCulture)),
    ];

    private static string Faults(IReadOnlyList<Verdict>[] verdicts) => string.Join('\n',
        from i in Enumerable.Range(0, verdicts.Length)
        from verdict in verdicts[i]
        where !verdict.IsAllowed
        select $"- {ForeignReaders.All[i].Name}, {verdict.ToLine()}");

    private static string Word(Outcome outcome) => outcome switch
    {
        Outcome.TookTooMuch => "took too much memory",
        _ => outcome.ToString().ToLowerInvariant(),
    };
}
