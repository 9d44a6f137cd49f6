using System.CommandLine;

namespace BosFlow.Cli.CommandLine;

/// <summary>Parses a command line, runs the command, and turns whatever goes wrong into a sentence and an exit code.</summary>
/// <param name="environment">What commands may touch of the outside world.</param>
internal sealed class CommandLineHost(CommandEnvironment environment)
{
    /// <summary>Runs one command.</summary>
    /// <param name="args">The command line.</param>
    /// <param name="cancellationToken">Interrupts the command.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public async Task<int> RunAsync(string[] args, CancellationToken cancellationToken)
    {
        RootCommand root = RootCommandFactory.Create(environment);
        ParseResult parsed = root.Parse(args);
        Talk talk = Talk.Of(parsed, environment);
        if (parsed.Errors.Count > 0)
            return ErrorReport.Tell(talk, ExitCode.BadInput, ParseErrors.InWords(parsed));

        var configuration = new InvocationConfiguration
        {
            Output = environment.Output,
            Error = environment.Error,
            EnableDefaultExceptionHandler = false,
            // Signals are handled by Interruption, which knows how long a frame takes.
            ProcessTerminationTimeout = null,
        };
        try
        {
            return await parsed.InvokeAsync(configuration, cancellationToken).ConfigureAwait(false);
        }
#pragma warning disable CA1031 // The one place where every exception ends: it becomes a sentence and an exit code.
        catch (Exception exception)
#pragma warning restore CA1031
        {
            return ErrorReport.Tell(talk, exception);
        }
    }
}
