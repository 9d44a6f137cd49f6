using System.Diagnostics;
using System.Text;

namespace BosFlow.Media.Video;

/// <summary>Runs external tools.</summary>
internal static class ToolRun
{
    /// <summary>A process that is not started yet: no shell, no input unless asked for, both outputs piped.</summary>
    internal static Process Prepare(string tool, IEnumerable<string> arguments, bool feedInput)
    {
        var start = new ProcessStartInfo(tool)
        {
            UseShellExecute = false,
            RedirectStandardInput = feedInput,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        // Numbers and messages are parsed, so they must not depend on the user's language.
        start.Environment["LC_ALL"] = "C.UTF-8";
        foreach (string argument in arguments)
            start.ArgumentList.Add(argument);
        return new Process { StartInfo = start };
    }

    /// <summary>Runs a tool to its end and collects what it says; kills it on cancellation.</summary>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    /// <exception cref="InputDataException">The tool said nothing for too long and was ended.</exception>
    internal static ToolOutput Collect(string tool, IEnumerable<string> arguments, CancellationToken cancellationToken) =>
        Collect(tool, arguments, ExternalTools.StandardPatience, cancellationToken);

    /// <summary>Runs a tool to its end as above, with another limit to its silence.</summary>
    internal static ToolOutput Collect(string tool, IEnumerable<string> arguments, TimeSpan limit, CancellationToken cancellationToken)
    {
        using Process process = Prepare(tool, arguments, feedInput: false);
        process.Start();
        using CancellationTokenRegistration registration = cancellationToken.Register(() => Kill(process));
        Task<string> errors = process.StandardError.ReadToEndAsync(CancellationToken.None);
        using var patience = new Patience(process, limit);
        var output = new StringBuilder();
        char[] buffer = new char[1 << 14];
        patience.Wait();
        for (int read = process.StandardOutput.Read(buffer); read > 0; read = process.StandardOutput.Read(buffer))
        {
            output.Append(buffer, 0, read);
            patience.Wait();
        }

        process.WaitForExit();
        patience.Rest();
        cancellationToken.ThrowIfCancellationRequested();
        patience.ThrowIfOver(tool);
        return new ToolOutput(process.ExitCode, output.ToString(), errors.GetAwaiter().GetResult());
    }

    /// <summary>Ends a process that may have ended already.</summary>
    internal static void Kill(Process process)
    {
        try
        {
            process.Kill(entireProcessTree: true);
        }
        catch (InvalidOperationException)
        {
            // It ended by itself, or was never started.
        }
    }
}
