using System.Globalization;
using BosFlow.Benchmarks.Reporting;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>What long and disturbed runs come to, as a report.</summary>
internal static class EnduranceMeasurement
{
    /// <summary>Runs the studies.</summary>
    /// <param name="options">Where the report goes.</param>
    /// <param name="quick">A tenth of the numbers, to see that everything works.</param>
    public static void Run(MeasurementOptions options, bool quick)
    {
        int part = quick ? 10 : 1;
        using var small = new EnduranceCase(128, 96, 60);
        using var middle = new EnduranceCase(1280, 720, 24);
        using var large = new EnduranceCase(3840, 2160, 6);
        string text = string.Create(CultureInfo.InvariantCulture, $"""
            # Endurance: killed, stopped, short of disk, long

            Made by `dotnet run -c Release --project tests/BosFlow.Benchmarks -- endurance{(quick ? " --quick" : "")}` on {MachineDescription.Line()}.
            The program is `bosflow run` as its own process. The last section needs root, to mount a small disk.

            ## Killed at random moments

            {KillStudy.Text(small, 100 / part)}

            ## Stopped by a signal

            {StopStudy.Text([(small, 20 / part), (middle, 20 / part), (large, 10 / part)])}
            ## Length of the run

            {LengthStudy.Text([100, 1000, 10000 / part])}

            ## Durable writing

            {WritingStudy.Text(middle)}

            ## Full disk

            {DiskFullStudy.Text(small, 20 / part)}
            """);
        ReportFile.Write(options.Output, text);
    }
}
