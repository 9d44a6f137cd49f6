using System.Globalization;
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using BosFlow.Media;

namespace BosFlow.Cli.Doctor;

/// <summary>Looks at the machine: what it has and what it lacks.</summary>
/// <param name="media">What is there to read pictures and video with.</param>
/// <param name="folder">The folder the user works in.</param>
internal sealed class MachineChecks(IReadOnlyList<NativeLibraryStatus> media, string folder)
{
    private const double GiB = 1024.0 * 1024 * 1024;

    // One 4K frame being measured takes about 0.4 GiB, and a run measures one a core.
    private const double LeastMemoryGiB = 2;

    /// <summary>Every check, in the order of the list.</summary>
    public IReadOnlyList<MachineCheck> All() => [Program(), System(), Processor(), Memory(), Vectors(), .. media.Select(OfMedia), .. new FolderChecks(folder, Path.GetTempPath()).All()];

    private static MachineCheck Program() =>
        new("program", CheckState.Good, $"bosflow {CommandLine.VersionLine.Text}, {RuntimeInformation.FrameworkDescription}");

    private static MachineCheck System()
    {
        string name = $"{RuntimeInformation.OSDescription}, {RuntimeInformation.ProcessArchitecture}";
        bool known = OperatingSystem.IsLinux() && RuntimeInformation.ProcessArchitecture == Architecture.X64;
        return known
            ? new MachineCheck("system", CheckState.Good, name)
            : new MachineCheck("system", CheckState.Missing, name, "the native library for pictures and video is there for Linux on x86-64 only; use such a machine");
    }

    private static MachineCheck Processor() =>
        new("cores", CheckState.Good, string.Create(CultureInfo.InvariantCulture, $"{Environment.ProcessorCount}; a run measures that many frames side by side (--threads)"));

    private static MachineCheck Memory()
    {
        double total = GC.GetGCMemoryInfo().TotalAvailableMemoryBytes / GiB;
        string finding = string.Create(CultureInfo.InvariantCulture, $"{total:0.0} GiB");
        return total >= LeastMemoryGiB
            ? new MachineCheck("memory", CheckState.Good, finding)
            : new MachineCheck("memory", CheckState.CouldBeBetter, finding, "large pictures may not fit: use --threads 1, or --max-memory");
    }

    private static MachineCheck Vectors()
    {
        int bits = Vector512.IsHardwareAccelerated ? 512 : Vector256.IsHardwareAccelerated ? 256 : Vector128.IsHardwareAccelerated ? 128 : 0;
        string finding = bits == 0
            ? "no vector instructions"
            : string.Create(CultureInfo.InvariantCulture, $"{bits} bits wide, {Vector<float>.Count} floats at a time in portable kernels");
        return bits >= 256
            ? new MachineCheck("vectors", CheckState.Good, finding)
            : new MachineCheck("vectors", CheckState.CouldBeBetter, finding, "results are the same, but slower; look for a DOTNET_Enable... variable that switches instructions off");
    }

    private static MachineCheck OfMedia(NativeLibraryStatus status)
    {
        CheckState state = status.Present ? CheckState.Good : status.Required ? CheckState.Missing : CheckState.CouldBeBetter;
        return new MachineCheck(status.Name, state, status.Detail);
    }
}
