using System.CommandLine;

namespace BosFlow.Cli.CommandLine;

/// <summary>A command whose help ends with examples.</summary>
/// <param name="name">Name of the command.</param>
/// <param name="description">What it is for, one sentence that begins with a verb.</param>
internal sealed class ExampleCommand(string name, string description) : Command(name, description)
{
    /// <summary>Command lines with what they do, for the end of the help.</summary>
    public IReadOnlyList<(string CommandLine, string Meaning)> Examples { get; init; } = [];

    /// <summary>Sentences below the examples: what the command does not say by itself.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];
}
