using System.Globalization;
using BosFlow.ForeignBytes.Readers;
using BosFlow.TestKit;

namespace BosFlow.ForeignBytes;

/// <summary>The process that reads mutants: READER FIRST END prints a line for each from FIRST to END - 1.</summary>
internal static class Program
{
    /// <summary>How a line with a verdict begins.</summary>
    public const string Mark = "verdict\t";

    private static int Main(string[] args)
    {
        ForeignReader reader = ForeignReaders.All.Single(reader => reader.Name == args[0]);
        using var folder = new TemporaryFolder();
        IReadOnlyList<Sample> samples = reader.Prepare(folder.Root);
        foreach (Sample sample in samples)
            sample.Read();
        int end = int.Parse(args[2], CultureInfo.InvariantCulture);
        for (int number = int.Parse(args[1], CultureInfo.InvariantCulture); number < end; number++)
        {
            Console.Out.WriteLine(Mark + Trial.Run(reader, samples, number).ToLine());
            Console.Out.Flush();
        }

        return 0;
    }
}
