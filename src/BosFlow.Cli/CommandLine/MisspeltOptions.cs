using System.CommandLine;
using System.CommandLine.Parsing;

namespace BosFlow.Cli.CommandLine;

/// <summary>Keeps an option that does not exist from being taken for one path among several.</summary>
internal static class MisspeltOptions
{
    /// <summary>Refuses words that begin with a dash; a file of such a name can be given as ./-name.</summary>
    /// <param name="paths">An argument that takes several paths.</param>
    public static void RefuseAmong(Argument<string[]> paths) => paths.Validators.Add(result =>
    {
        if (result.Tokens.FirstOrDefault(token => token.Value.StartsWith('-')) is { } word && result.Parent is CommandResult { Command: { } command })
            result.AddError(ParseErrors.UnknownOption(word.Value, command));
    });
}
