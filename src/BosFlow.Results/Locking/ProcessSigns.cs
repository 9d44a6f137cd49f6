namespace BosFlow.Results.Locking;

/// <summary>What Linux tells of processes, in counts that no change of the clock touches.</summary>
internal static class ProcessSigns
{
    // Fields of /proc/PID/stat after the name, which may hold spaces and brackets itself (proc_pid_stat(5): state is field 3, starttime 22).
    private const int State = 0;
    private const int StartTime = 19;

    /// <summary>When a process started, in ticks since the machine did; null where it does not run.</summary>
    public static string? StartOf(int process)
    {
        try
        {
            string text = File.ReadAllText(FormattableString.Invariant($"/proc/{process}/stat"));
            string[] fields = text[(text.LastIndexOf(')') + 2)..].Split(' ');
            // A zombie or dead process only waits to be struck off.
            return fields[State] is "Z" or "X" ? null : fields[StartTime];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>The start of this machine and its space of process numbers; empty where the system does not tell.</summary>
    public static string Machine()
    {
        try
        {
            string start = File.ReadAllText("/proc/sys/kernel/random/boot_id").Trim();
            return $"{start} {new FileInfo("/proc/self/ns/pid").LinkTarget}";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return string.Empty;
        }
    }
}
