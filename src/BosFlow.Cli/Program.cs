using System.CommandLine;
using Spectre.Console;

namespace BosFlow.Cli;

/// <summary>Entry point: composes the commands and maps exceptions to messages and exit codes.</summary>
public static class Program
{
    /// <summary>Runs one command.</summary>
    /// <param name="args">The command line.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static async Task<int> Main(string[] args)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });
        var environment = new CommandEnvironment(Console.Out, Console.Error, console, Directory.GetCurrentDirectory());
        return await RunAsync(args, environment, CancellationToken.None).ConfigureAwait(false);
    }

    /// <summary>Runs one command in a given environment.</summary>
    /// <param name="args">The command line.</param>
    /// <param name="environment">Writers, console and folder.</param>
    /// <param name="cancellationToken">Interrupts the command.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static async Task<int> RunAsync(string[] args, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(environment);
        var root = new RootCommand("Background-oriented schlieren: from footage to density-gradient maps with units.");
        ParseResult parsed = root.Parse(args);
        return await parsed.InvokeAsync(cancellationToken: cancellationToken).ConfigureAwait(false);
    }
}
