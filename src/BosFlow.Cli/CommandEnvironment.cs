using Spectre.Console;

namespace BosFlow.Cli;

/// <summary>What a command may touch of the outside world; tests hand in their own.</summary>
/// <param name="Output">Results (stdout).</param>
/// <param name="Error">Messages, warnings (stderr).</param>
/// <param name="ErrorConsole">Progress and tables on stderr.</param>
/// <param name="WorkingDirectory">Folder that relative paths on the command line refer to.</param>
public sealed record CommandEnvironment(TextWriter Output, TextWriter Error, IAnsiConsole ErrorConsole, string WorkingDirectory)
{
    /// <summary>Whether stderr is a terminal that understands control codes: only there does a progress line rewrite itself.</summary>
    public bool ErrorIsTerminal { get; init; }

    /// <summary>Whether the user's environment allows colour on stderr; <c>--no-color</c> forbids it all the same.</summary>
    public bool ColorAllowed { get; init; }

    /// <summary>Clock for rates and remaining times; never for results.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>The outside world of this process.</summary>
    public static CommandEnvironment OfProcess()
    {
        // A terminal that calls itself dumb shows control codes as letters. NO_COLOR counts as soon as it is not empty (no-color.org).
        bool terminal = !Console.IsErrorRedirected && Environment.GetEnvironmentVariable("TERM") is not ("dumb" or null);
        bool color = terminal && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(Console.Error),
            Ansi = terminal ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = color ? ColorSystemSupport.Standard : ColorSystemSupport.NoColors,
            // Spectre asks for stdin and stdout too, which a pipe takes away without harm to stderr.
            Interactive = terminal ? InteractionSupport.Yes : InteractionSupport.No,
        });
        return new CommandEnvironment(Console.Out, Console.Error, console, Directory.GetCurrentDirectory())
        {
            ErrorIsTerminal = terminal,
            ColorAllowed = color,
        };
    }

    /// <summary>The absolute form of a path of the command line.</summary>
    /// <param name="path">A path as typed, absolute or relative to <see cref="WorkingDirectory"/>.</param>
    public string Absolute(string path) => Path.GetFullPath(path, WorkingDirectory);
}
