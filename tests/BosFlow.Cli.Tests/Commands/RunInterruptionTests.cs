using System.Diagnostics;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RunInterruptionTests
{
    // Seconds of work, so that a signal that a busy machine sends late still comes in time.
    private const int Frames = 400;

    [Theory]
    [InlineData("-INT")]
    [InlineData("-TERM")]
    public async Task Run_Signal_Returns130KeepsFinishedFramesAndGoesOn(string signal)
    {
        using var small = new SmallCase(frames: 1);
        // The same picture many times, each measured with great effort: still busy when the signal comes.
        for (int i = 1; i < Frames; i++)
            File.Copy(small.PathOf(SmallCase.FrameName(0)), small.PathOf(SmallCase.FrameName(i)));
        small.WriteCase(SmallCase.Text
            .Replace("frame_rate_hz = 50.0", "frame_rate_hz = 50.0\nskip_repeats = false", StringComparison.Ordinal)
            .Replace("quality = \"fast\"", "quality = \"finest\"\nspacing_px = 4\npasses = 8", StringComparison.Ordinal));
        // A test run in the background of a shell ignores SIGINT, and so would its children: env puts that right.
        using Process process = Process.Start(new ProcessStartInfo("env", ["--default-signal=INT", "dotnet", .. CliRun.Arguments("run", "case.toml", "--threads", "1")])
        {
            WorkingDirectory = small.Folder,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        Task<string> output = process.StandardOutput.ReadToEndAsync();

        while (!process.HasExited && FinishedFrames(small) == 0)
            await Task.Delay(20);
        (await ProcessRunner.RunAsync("kill", [signal, process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)])).EnsureSuccess();
        await process.WaitForExitAsync();

        int finished = FinishedFrames(small);
        Assert.Equal(ExitCode.Interrupted, process.ExitCode);
        Assert.InRange(finished, 1, Frames - 1);
        Assert.Contains("Stopping after the frame at hand.", await error, StringComparison.Ordinal);
        Assert.Contains("Interrupted; nothing is half-written. Give the same command again: it does what is left.", await error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", await error, StringComparison.Ordinal);
        Assert.Empty(await output);
        Assert.Empty(Directory.EnumerateFiles(small.RunFolder, "*.part", SearchOption.AllDirectories));

        ProcessResult resumed = await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--frames", "0:2");
        Assert.Equal(ExitCode.Done, resumed.ExitCode);
        Assert.Contains("were there already", resumed.Output, StringComparison.Ordinal);
    }

    private static int FinishedFrames(SmallCase small)
    {
        string frames = Path.Combine(small.RunFolder, "frames");
        return Directory.Exists(frames) ? Directory.GetFiles(frames, "*.nc").Length : 0;
    }
}
