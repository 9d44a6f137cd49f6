using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Launcher;

public sealed class LauncherMachineTests
{
    private const string NothingInstalled = "libc.so.6 (libc6,x86-64) => /x\nlibgtk-3.so.0 (libc6) => /a 32-bit one\n";

    [Fact]
    public async Task Run_AsRootOnABareMachine_InstallsWithoutAskingForListsItHas()
    {
        using var sandbox = new LauncherSandbox();
        sandbox.Write("libraries", NothingInstalled);

        ProcessResult result = await sandbox.RunAsync(["run", "case.toml"]);

        Assert.Contains("GTK 3 (libgtk-3.so.0)", result.Error, StringComparison.Ordinal);
        string call = Assert.Single(sandbox.AptCalls);
        Assert.EndsWith("install --no-install-recommends libgtk-3-0 libatomic1 libdrm2", call, StringComparison.Ordinal);
        Assert.Contains("running first", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_FirstInstallFails_FetchesListsAndThenSaysTheCommand()
    {
        using var sandbox = new LauncherSandbox();
        sandbox.Write("libraries", NothingInstalled);
        sandbox.Write("apt-fails", "");

        ProcessResult result = await sandbox.RunAsync(["run", "case.toml"]);

        Assert.Equal(1, result.ExitCode);
        Assert.EndsWith(" update", sandbox.AptCalls[1], StringComparison.Ordinal);
        Assert.EndsWith("sudo apt-get install libgtk-3-0 libatomic1 libdrm2\n", result.Error, StringComparison.Ordinal);
        Assert.Equal("", result.Output);
    }

    [Fact]
    public async Task Run_AsUserWithoutSudo_SaysTheOneCommandAndInstallsNothing()
    {
        using var sandbox = new LauncherSandbox();
        sandbox.Write("libraries", "libgtk-3.so.0 (libc6,x86-64) => /x\nlibdrm.so.2 (libc6,x86-64) => /x\n");
        sandbox.Tool("id", "echo 1000");

        ProcessResult result = await sandbox.RunAsync(["triage", "clip.mp4"]);

        Assert.Equal(1, result.ExitCode);
        Assert.Empty(sandbox.AptCalls);
        Assert.Equal(0, sandbox.Builds);
        Assert.EndsWith("type:  sudo apt-get install libatomic1\n", result.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("doctor")]
    [InlineData("run", "--help")]
    [InlineData("--version")]
    public async Task Help_OnABareMachine_NamesWhatIsMissingAndInstallsNothing(params string[] arguments)
    {
        using var sandbox = new LauncherSandbox();
        sandbox.Write("libraries", NothingInstalled);

        ProcessResult result = await sandbox.RunAsync(arguments);

        Assert.Empty(sandbox.AptCalls);
        Assert.Contains("sudo apt-get install libgtk-3-0 libatomic1 libdrm2", result.Error, StringComparison.Ordinal);
        Assert.Contains("running first", result.Output, StringComparison.Ordinal);
    }
}
