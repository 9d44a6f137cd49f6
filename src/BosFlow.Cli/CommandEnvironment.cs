using Spectre.Console;

namespace BosFlow.Cli;

/// <summary>What a command may touch of the outside world; tests hand in their own.</summary>
/// <param name="Output">Results (stdout).</param>
/// <param name="Error">Messages, warnings (stderr).</param>
/// <param name="ErrorConsole">Progress and tables on stderr.</param>
/// <param name="WorkingDirectory">Folder that relative paths on the command line refer to.</param>
public sealed record CommandEnvironment(TextWriter Output, TextWriter Error, IAnsiConsole ErrorConsole, string WorkingDirectory);
