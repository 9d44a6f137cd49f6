using System.Runtime.InteropServices;

namespace BosFlow.Cli.CommandLine;

/// <summary>
/// Turns Ctrl-C and SIGTERM into a cancelled token. The command then finishes the frame at hand and stops; a second
/// signal, or a command that does not stop within the grace time, ends the process at once. That harms nothing:
/// every file is written under a temporary name and renamed.
/// </summary>
internal sealed class Interruption : IDisposable
{
    // Longer than one 4K frame and one write take on a slow machine.
    private static readonly TimeSpan Grace = TimeSpan.FromSeconds(60);

    private readonly CancellationTokenSource source = new();
    private readonly TextWriter error;
    private readonly PosixSignalRegistration[] registrations;
    private Timer? deadline;
    private int signals;

    /// <summary>Starts listening.</summary>
    /// <param name="error">Where the user is told what happens now.</param>
    public Interruption(TextWriter error)
    {
        this.error = error;
        registrations =
        [
            PosixSignalRegistration.Create(PosixSignal.SIGINT, OnSignal),
            PosixSignalRegistration.Create(PosixSignal.SIGTERM, OnSignal),
        ];
    }

    /// <summary>Cancelled by the first signal.</summary>
    public CancellationToken Token => source.Token;

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (PosixSignalRegistration registration in registrations)
            registration.Dispose();
        deadline?.Dispose();
        source.Dispose();
    }

    private void OnSignal(PosixSignalContext context)
    {
        context.Cancel = true;
        if (Interlocked.Increment(ref signals) > 1)
            Environment.Exit(ExitCode.Interrupted);
        error.WriteLine();
        error.WriteLine("Stopping after the frame at hand. Press Ctrl-C again to stop at once.");
        deadline = new Timer(_ => Environment.Exit(ExitCode.Interrupted), null, Grace, Timeout.InfiniteTimeSpan);
        source.Cancel();
    }
}
