using BosFlow.Cli.CommandLine;

namespace BosFlow.Cli;

/// <summary>Entry point.</summary>
public static class Program
{
    /// <summary>Runs one command in the environment of this process.</summary>
    /// <param name="args">The command line.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static async Task<int> Main(string[] args)
    {
        using var interruption = new Interruption(Console.Error);
        return await RunAsync(args, CommandEnvironment.OfProcess(), interruption.Token).ConfigureAwait(false);
    }

    /// <summary>Runs one command in a given environment.</summary>
    /// <param name="args">The command line.</param>
    /// <param name="environment">Writers, console and folder.</param>
    /// <param name="cancellationToken">Interrupts the command.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static Task<int> RunAsync(string[] args, CommandEnvironment environment, CancellationToken cancellationToken) =>
        new CommandLineHost(environment).RunAsync(args, cancellationToken);
}
