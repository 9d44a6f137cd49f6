using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Launcher;

public sealed class LauncherBuildTests
{
    [Fact]
    public async Task Start_Twice_BuildsOnceAndPassesEverythingOn()
    {
        using var sandbox = new LauncherSandbox();
        string elsewhere = sandbox.Folder("where the user is");

        ProcessResult first = await sandbox.RunAsync(["run", "a b", "", "ö"], workingDirectory: elsewhere);
        ProcessResult second = await sandbox.RunAsync(["run", "a b", "", "ö"], workingDirectory: elsewhere);

        Assert.Equal(1, sandbox.Builds);
        Assert.Contains("first time", first.Error, StringComparison.Ordinal);
        Assert.Equal("", second.Error);
        Assert.Equal(3, second.ExitCode);
        Assert.Equal($"running first in {elsewhere} with:\n<run>\n<a b>\n<>\n<ö>\n", second.Output);
        Assert.Equal(first.Output, second.Output);
    }

    [Fact]
    public async Task Start_ThroughASymlink_FindsTheRepository()
    {
        using var sandbox = new LauncherSandbox();
        string link = Path.Combine(sandbox.Folder("bin"), "flow");
        File.CreateSymbolicLink(link, sandbox.Launcher);

        ProcessResult result = await sandbox.RunAsync(["plan"], link);

        Assert.Contains("running first", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_AfterASourceChanged_BuildsAgain()
    {
        using var sandbox = new LauncherSandbox();
        await sandbox.RunAsync(["plan"]);
        await File.WriteAllTextAsync(sandbox.Source, "second");

        ProcessResult result = await sandbox.RunAsync(["plan"]);

        Assert.Equal(2, sandbox.Builds);
        Assert.Contains("running second", result.Output, StringComparison.Ordinal);
        Assert.Single(Directory.GetDirectories(Path.Combine(sandbox.Home, "artifacts", "cli"), "build-*"));
    }

    [Fact]
    public async Task Start_AfterASourceWasDeleted_BuildsAgain()
    {
        using var sandbox = new LauncherSandbox();
        await sandbox.RunAsync(["plan"]);
        File.Delete(Path.Combine(Path.GetDirectoryName(sandbox.Source)!, "Other.cs"));

        await sandbox.RunAsync(["plan"]);

        Assert.Equal(2, sandbox.Builds);
    }

    [Fact]
    public async Task Start_TwiceAtTheSameTime_BuildsOnce()
    {
        using var sandbox = new LauncherSandbox();

        ProcessResult[] results = await Task.WhenAll(sandbox.RunAsync(["plan"]), sandbox.RunAsync(["plan"]), sandbox.RunAsync(["plan"]));

        Assert.Equal(1, sandbox.Builds);
        Assert.All(results, result => Assert.Contains("running first", result.Output, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Start_BuildThatFails_ShowsTheErrorsAndKeepsNothing()
    {
        using var sandbox = new LauncherSandbox();
        string fails = sandbox.Write("build-fails", "");

        ProcessResult failed = await sandbox.RunAsync(["plan"]);
        File.Delete(fails);
        ProcessResult mended = await sandbox.RunAsync(["plan"]);

        Assert.Equal(1, failed.ExitCode);
        Assert.Contains("error CS1002", failed.Error, StringComparison.Ordinal);
        Assert.Equal("", failed.Output);
        Assert.Contains("running first", mended.Output, StringComparison.Ordinal);
        Assert.Single(Directory.GetDirectories(Path.Combine(sandbox.Home, "artifacts", "cli"), "build-*"));
    }

    [Fact]
    public async Task Start_WhileAnOlderBuildRuns_KeepsItsFiles()
    {
        using var sandbox = new LauncherSandbox();
        await sandbox.RunAsync(["plan"]);
        string builds = Path.Combine(sandbox.Home, "artifacts", "cli");
        string older = Path.GetFullPath(new FileInfo(Path.Combine(builds, "current")).LinkTarget!, builds);
        await File.WriteAllTextAsync(sandbox.Source, "second");

        // Holds what a running program holds for as long as the launcher builds the newer one.
        using (var held = System.Diagnostics.Process.Start("flock", ["-s", Path.Combine(older, ".in-use"), "sleep", "30"]))
        {
            await WaitUntilLockedAsync(Path.Combine(older, ".in-use"));
            await sandbox.RunAsync(["plan"]);
            Assert.True(File.Exists(Path.Combine(older, "BosFlow.Cli.dll")));
            held.Kill(entireProcessTree: true);
            await held.WaitForExitAsync();
        }

        await File.WriteAllTextAsync(sandbox.Source, "third");
        await sandbox.RunAsync(["plan"]);
        Assert.False(Directory.Exists(older));
    }

    [Fact]
    public async Task Start_WithoutTheSdk_SaysWhichOneIsMissing()
    {
        using var sandbox = new LauncherSandbox();
        sandbox.Write("sdks", "8.0.400 [/x]\n");

        ProcessResult result = await sandbox.RunAsync(["plan"]);

        Assert.Equal(1, result.ExitCode);
        Assert.Contains("the .NET 10 SDK is missing", result.Error, StringComparison.Ordinal);
        Assert.Contains("8.0.400", result.Error, StringComparison.Ordinal);
        Assert.Equal(0, sandbox.Builds);
    }

    private static async Task WaitUntilLockedAsync(string file)
    {
        for (int attempt = 0; attempt < 200; attempt++)
        {
            ProcessResult probe = await ProcessRunner.RunAsync("flock", ["-n", "-x", file, "true"], cancellationToken: CancellationToken.None);
            if (probe.ExitCode != 0)
                return;
            await Task.Delay(20);
        }

        Assert.Fail($"{file} was never locked");
    }
}
