using System.Globalization;

namespace BosFlow.Benchmarks.Reporting;

/// <summary>Processor time: what a computation takes whatever else the machine does.</summary>
internal static class ProcessorTime
{
    // Of the kernel's clock in /proc, the same on every Linux for x86_64.
    private const double TicksPerSecond = 100;

    // Places of the two numbers behind the name of the process, which may hold blanks itself.
    private const int ChildrenUser = 13;
    private const int ChildrenSystem = 14;

    /// <summary>Processor time of this process so far, all threads, s.</summary>
    public static double Own => Environment.CpuUsage.TotalTime.TotalSeconds;

    /// <summary>Processor time of the processes that this one started and that have ended, with those that they had started, s.</summary>
    public static double OfEndedChildren
    {
        get
        {
            string line = File.ReadAllText("/proc/self/stat");
            string[] fields = line[(line.LastIndexOf(')') + 2)..].Split(' ');
            return (double.Parse(fields[ChildrenUser], CultureInfo.InvariantCulture) + double.Parse(fields[ChildrenSystem], CultureInfo.InvariantCulture)) / TicksPerSecond;
        }
    }
}
