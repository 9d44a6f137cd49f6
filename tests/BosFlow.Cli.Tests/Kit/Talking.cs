using System.CommandLine;
using BosFlow.Cli.CommandLine;
using Spectre.Console;

namespace BosFlow.Cli.Tests.Kit;

/// <summary>Makes what commands speak through, with given writers and options.</summary>
internal static class Talking
{
    /// <summary>An environment that writes to given writers.</summary>
    /// <param name="output">stdout.</param>
    /// <param name="error">stderr.</param>
    /// <param name="terminal">Whether stderr is a terminal with colour.</param>
    public static CommandEnvironment Environment(TextWriter output, TextWriter error, bool terminal = false)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = terminal ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = terminal ? ColorSystemSupport.Standard : ColorSystemSupport.NoColors,
            Out = new AnsiConsoleOutput(error),
        });
        return new CommandEnvironment(output, error, console, Path.GetTempPath()) { ErrorIsTerminal = terminal, ColorAllowed = terminal };
    }

    /// <summary>Speaks to given writers.</summary>
    /// <param name="output">stdout.</param>
    /// <param name="error">stderr.</param>
    /// <param name="options">Options such as --json.</param>
    public static Talk To(TextWriter output, TextWriter error, params string[] options) => Of(Environment(output, error), options);

    /// <summary>Speaks in an environment.</summary>
    /// <param name="environment">The environment.</param>
    /// <param name="options">Options such as --json.</param>
    public static Talk Of(CommandEnvironment environment, params string[] options)
    {
        ParseResult parsed = RootCommandFactory.Create(environment).Parse(["case-keys", .. options]);
        return Talk.Of(parsed, environment);
    }
}
