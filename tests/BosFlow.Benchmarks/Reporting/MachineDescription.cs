using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace BosFlow.Benchmarks.Reporting;

/// <summary>The kind of machine that a measurement ran on, without its name.</summary>
internal static class MachineDescription
{
    public static string Line()
    {
        string model = File.ReadLines("/proc/cpuinfo")
            .Where(line => line.StartsWith("model name", StringComparison.Ordinal))
            .Select(line => line.Split(':', 2)[1].Trim())
            .FirstOrDefault("unknown processor");
        int bits = Vector512.IsHardwareAccelerated ? 512 : Vector256.IsHardwareAccelerated ? 256 : 128;
        return $"{Environment.ProcessorCount} cores ({model}), {bits}-bit vectors, {RuntimeInformation.OSDescription.Split(' ')[0]} {RuntimeInformation.ProcessArchitecture}, {RuntimeInformation.FrameworkDescription}";
    }
}
