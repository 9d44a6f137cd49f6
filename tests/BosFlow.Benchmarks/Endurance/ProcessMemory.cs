using System.Globalization;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>The memory of another process.</summary>
internal static class ProcessMemory
{
    /// <summary>Largest resident size so far, 10^6 bytes; 0 where the process has ended.</summary>
    public static double PeakMegabytes(int processId)
    {
        // The kernel keeps it as VmHWM, in kB; it is gone with the process.
        try
        {
            string line = File.ReadLines($"/proc/{processId}/status").First(text => text.StartsWith("VmHWM:", StringComparison.Ordinal));
            return double.Parse(line["VmHWM:".Length..].Replace("kB", "", StringComparison.Ordinal), CultureInfo.InvariantCulture) * 1024 / 1e6;
        }
        catch (Exception exception) when (exception is IOException or InvalidOperationException)
        {
            return 0;
        }
    }
}
