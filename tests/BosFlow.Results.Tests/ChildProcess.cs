using BosFlow.TestKit;

namespace BosFlow.Results.Tests;

/// <summary>Programs of the machine that read what we wrote.</summary>
internal static class ChildProcess
{
    public static string Run(string program, params string[] arguments) =>
        ProcessRunner.RunAsync(program, arguments).GetAwaiter().GetResult().EnsureSuccess().Output;

    /// <summary>Runs a Python program with Debian's packages.</summary>
    public static string Python(string program, params string[] arguments) => Run(ProcessRunner.DebianPython, ["-c", program, .. arguments]);
}
