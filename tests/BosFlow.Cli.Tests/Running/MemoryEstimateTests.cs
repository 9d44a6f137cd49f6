using System.Diagnostics;
using System.Globalization;
using BosFlow.Cli.Running;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Running;

public sealed class MemoryEstimateTests
{
    // What the estimate promises; docs/overnight.md says so.
    private const double Tolerance = 0.3;

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public async Task PeakBytes_BesideARunOfItsOwn_AgreesWithItsPeak(int threads)
    {
        using var folder = new TemporaryFolder();
        folder.Write("scene.toml", "[scene]\nwidth_px = 1280\nheight_px = 720\nframes = 9\nflow_off_frames = 1\nseed = 3\n[flow]\nkind = \"shift\"\nu_px = 0.6\nv_px = 0.2\n");
        ProcessResult made = await CliRun.InsideAsync(folder.Root, "synth", "scene.toml", "--output", "scene");
        Assert.True(made.ExitCode == ExitCode.Done, made.Error);
        PreparedRun prepared = RunPreparation.Prepare(new RunSettings { CasePath = folder.PathOf("scene") }, CancellationToken.None);
        double expected = MemoryPlan.Expected(prepared.Case.Experiment, prepared.Footage.Info, prepared.Reference, threads);

        double peak = Peak(folder.Root, "run", "scene", "--quiet", "--threads", threads.ToString(CultureInfo.InvariantCulture));

        Assert.InRange(peak / expected, 1 - Tolerance, 1 + Tolerance);
    }

    // The kernel keeps the largest resident size of a process as VmHWM, in kB; it is gone with the process.
    private static double Peak(string folder, params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", CliRun.Arguments(args)) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true })!;
        process.ErrorDataReceived += (_, _) => { };
        process.OutputDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        process.BeginOutputReadLine();
        double peak = 0;
        while (!process.WaitForExit(10))
            peak = Math.Max(peak, PeakNow(process.Id));
        Assert.Equal(ExitCode.Done, process.ExitCode);
        return peak;
    }

    private static double PeakNow(int process)
    {
        try
        {
            string? line = File.ReadLines($"/proc/{process}/status").FirstOrDefault(text => text.StartsWith("VmHWM:", StringComparison.Ordinal));
            return line is null ? 0 : 1024 * double.Parse(line["VmHWM:".Length..].Replace("kB", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
        }
        catch (IOException)
        {
            // The process ended between the two looks.
            return 0;
        }
    }
}
