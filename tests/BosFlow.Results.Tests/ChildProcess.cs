using System.Diagnostics;

namespace BosFlow.Results.Tests;

/// <summary>Runs a program of the machine to its end.</summary>
public static class ChildProcess
{
    public static string Run(string program, params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} ended with {process.ExitCode}: {errors.Result}");
        return output;
    }
}
