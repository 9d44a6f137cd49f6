using System.Diagnostics;
using BosFlow.Cli.Tests.Kit;
using BosFlow.TestKit;

namespace BosFlow.Cli.Tests.Commands;

public sealed class RunKillTests
{
    private const int Frames = 24;

    [Fact]
    public async Task Run_KilledThreeTimesAndStartedAgain_GivesTheBytesOfAnUndisturbedRun()
    {
        using var small = new SmallCase(frames: 1);
        for (int i = 1; i < Frames; i++)
            File.Copy(small.PathOf(SmallCase.FrameName(0)), small.PathOf(SmallCase.FrameName(i)));
        Assert.Equal(ExitCode.Done, (await CliRun.InsideAsync(small.Folder, "run", "case.toml", "--output", "calm")).ExitCode);

        // Killed with more and more frames finished, at whatever the program does just then.
        foreach (int finished in new[] { 1, 6, 14 })
            await KillAsync(small, finished);
        ProcessResult last = await CliRun.ProcessAsync(small.Folder, "run", "case.toml", "--threads", "1");

        Assert.True(last.ExitCode == ExitCode.Done, last.Error);
        Assert.Contains("were there already", last.Output, StringComparison.Ordinal);
        Assert.Empty(RunFiles.Differences(RunFiles.Hashes(small.PathOf("calm")), RunFiles.Hashes(small.RunFolder)));
    }

    private static async Task KillAsync(SmallCase small, int finished)
    {
        using Process process = Process.Start(new ProcessStartInfo("dotnet", CliRun.Arguments("run", "case.toml", "--threads", "1", "--quiet"))
        {
            WorkingDirectory = small.Folder,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        string frames = Path.Combine(small.RunFolder, "frames");
        while (!process.HasExited && (!Directory.Exists(frames) || Directory.GetFiles(frames, "*.nc").Length < finished))
            await Task.Delay(5);
        process.Kill();
        await process.WaitForExitAsync();
    }
}
