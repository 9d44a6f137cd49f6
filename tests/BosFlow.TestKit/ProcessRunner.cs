using System.Diagnostics;

namespace BosFlow.TestKit;

/// <summary>Runs another program to its end; never through a shell, with nothing on stdin.</summary>
public static class ProcessRunner
{
    /// <summary>A program that takes longer than this hangs; every program the tests use ends within seconds.</summary>
    public static readonly TimeSpan LongestRun = TimeSpan.FromMinutes(3);

    /// <summary>Debian's own Python, whose packages (xarray, h5py, OpenCV) the tests use; another one earlier on PATH lacks them.</summary>
    public const string DebianPython = "/usr/bin/python3";

    /// <summary>Starts a program and waits for its end.</summary>
    /// <param name="program">Path, or a name that is looked up on PATH.</param>
    /// <param name="arguments">Arguments, each passed as it is.</param>
    /// <param name="workingDirectory">Folder the program starts in; null = the current one.</param>
    /// <param name="environment">Environment variables to set (null value: to remove); the others are inherited.</param>
    /// <param name="cancellationToken">Ends the program and everything it started.</param>
    /// <returns>Exit code and both streams.</returns>
    /// <exception cref="TimeoutException">The program ran longer than <see cref="LongestRun"/>; it was ended.</exception>
    public static async Task<ProcessResult> RunAsync(
        string program,
        IEnumerable<string> arguments,
        string? workingDirectory = null,
        IReadOnlyDictionary<string, string?>? environment = null,
        CancellationToken cancellationToken = default)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = workingDirectory ?? "",
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        foreach ((string name, string? value) in environment ?? new Dictionary<string, string?>())
            start.Environment[name] = value;
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        limit.CancelAfter(LongestRun);
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
        process.StandardInput.Close();
        Task<string> output = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        Task<string> error = process.StandardError.ReadToEndAsync(CancellationToken.None);
        try
        {
            await process.WaitForExitAsync(limit.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            cancellationToken.ThrowIfCancellationRequested();
            throw new TimeoutException($"{program} ran longer than {LongestRun}.");
        }

        return new ProcessResult(process.ExitCode, await output.ConfigureAwait(false), await error.ConfigureAwait(false));
    }
}
