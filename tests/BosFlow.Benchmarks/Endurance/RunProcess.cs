using System.Diagnostics;
using System.Globalization;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Endurance;

/// <summary>The command "run" as a process of its own.</summary>
internal sealed class RunProcess : IDisposable
{
    private readonly Process process;
    private readonly string output;
    private readonly Task<string> errors;
    private readonly long start = Stopwatch.GetTimestamp();

    /// <summary>Starts a run.</summary>
    /// <param name="study">The case.</param>
    /// <param name="output">Folder of the results.</param>
    /// <param name="threads">Threads that measure; 0 = as many as cores.</param>
    public RunProcess(EnduranceCase study, string output, int threads = 0)
    {
        this.output = output;
        int workers = threads > 0 ? threads : Environment.ProcessorCount;
        // A process started in the background of a shell ignores SIGINT, and so would its children: env puts that right.
        process = Process.Start(new ProcessStartInfo(
            "env",
            ["--default-signal=INT", "dotnet", Path.Combine(AppContext.BaseDirectory, "BosFlow.Cli.dll"), "run", study.CaseFile, "--output", output, "--threads", workers.ToString(CultureInfo.InvariantCulture)])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        _ = process.StandardOutput.ReadToEndAsync();
        errors = process.StandardError.ReadToEndAsync();
    }

    /// <summary>Time since the start, s.</summary>
    public double Seconds => Stopwatch.GetElapsedTime(start).TotalSeconds;

    /// <summary>Largest resident size seen by <see cref="WaitWatchingMemory"/>, 10^6 bytes.</summary>
    public double PeakMegabytes { get; private set; }

    /// <summary>Number of frames whose results are in the folder.</summary>
    public int FinishedFrames()
    {
        string frames = Path.Combine(output, "frames");
        return Directory.Exists(frames) ? Directory.GetFiles(frames, "*.nc").Length : 0;
    }

    /// <summary>What the program said on stderr; waits for its end.</summary>
    public string Words => errors.Result;

    public bool HasExited => process.HasExited;

    /// <summary>Waits until a time after the start, or the end of the process.</summary>
    /// <returns>Whether the process is still running.</returns>
    public bool RunsUntil(double seconds)
    {
        double left = seconds - Seconds;
        return left <= 0 ? !process.HasExited : !process.WaitForExit(TimeSpan.FromSeconds(left));
    }

    /// <summary>Ends the process at once (SIGKILL).</summary>
    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    /// <summary>Sends a signal and waits for the end.</summary>
    /// <returns>Exit code, and time from the signal to the end, s.</returns>
    public (int Code, double Seconds) Signal(string name)
    {
        long sent = Stopwatch.GetTimestamp();
        ProcessRunner.RunAsync("kill", ["-" + name, process.Id.ToString(CultureInfo.InvariantCulture)]).GetAwaiter().GetResult();
        process.WaitForExit();
        return (process.ExitCode, Stopwatch.GetElapsedTime(sent).TotalSeconds);
    }

    /// <summary>Waits for the end.</summary>
    /// <returns>The exit code.</returns>
    public int Wait()
    {
        process.WaitForExit();
        return process.ExitCode;
    }

    /// <summary>Waits for the end and looks at the memory meanwhile.</summary>
    /// <returns>The exit code.</returns>
    public int WaitWatchingMemory()
    {
        while (!process.WaitForExit(10))
            PeakMegabytes = Math.Max(PeakMegabytes, ProcessMemory.PeakMegabytes(process.Id));
        return process.ExitCode;
    }

    /// <summary>Runs a case to its end.</summary>
    /// <returns>Duration, s, and largest resident size, 10^6 bytes.</returns>
    /// <exception cref="InvalidOperationException">The run failed.</exception>
    public static (double Seconds, double Megabytes) ToTheEnd(EnduranceCase study, string output, int threads = 0)
    {
        using var run = new RunProcess(study, output, threads);
        int code = run.WaitWatchingMemory();
        double seconds = run.Seconds;
        return code == 0 ? (seconds, run.PeakMegabytes) : throw new InvalidOperationException($"The run ended with exit code {code}: {run.Words}");
    }

    public void Dispose()
    {
        if (!process.HasExited)
            Kill();
        process.Dispose();
    }
}
